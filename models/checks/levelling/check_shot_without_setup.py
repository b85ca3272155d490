"""shot_without_setup: shots from a setup that is not in the book, or not any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import SETUP
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState


def _subjects(state: JobState) -> Iterable[str]:
    return state.every_name(SHOTS_FROM)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    shots = state.current(SHOTS_FROM, subject)
    if shots and not state.current(SETUP, subject):
        yield make_finding(CHECK.id, subject, shots, setup_id=subject, shots=len(shots))


CHECK = Check(
    id="shot_without_setup",
    severity=Severity.FIX,
    problem="Shots name a setup that is not in the book.",
    why="A rod reading is a level only through its setup; without it the shots say nothing.",
    cure="Write down the setup with its backsight, or strike the shots and take them again.",
    message="There is no setup {setup_id}, and shots from it stand in the book: {shots}.",
    watches=dict.fromkeys(("setup", "grade_shot"), setup_of_entry),
    subjects=_subjects,
    examine=_examine,
)
