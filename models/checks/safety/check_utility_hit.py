"""utility_hit: something in the ground was hit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected import entry_itself
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.collector_work import UtilityMet
from models.entries.kind_names import UTILITY
from models.state.job_state import JobState


def _subjects(state: JobState) -> Iterable[str]:
    return [entry.id for entry in state.current(UTILITY)]


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = state.entries.get(subject)
    if entry is None or state.is_struck(subject) or not isinstance(entry.body, UtilityMet):
        return
    if entry.body.event == "hit":
        yield make_finding(
            CHECK.id,
            subject,
            [entry],
            what=entry.body.what,
            where=entry.body.where or "in a place not written down",
        )


CHECK = Check(
    id="utility_hit",
    severity=Severity.STOP,
    problem="Something in the ground was hit.",
    why="A line that was touched can be hurt without showing it, and whoever owns it has to "
    "look before anybody goes on.",
    cure="Stop there. DANGER: after gas or electric keep away, keep sparks away, and call the "
    "emergency number. Tell the owner of the line, and answer here what was done.",
    message="Hit: {what}, {where}.",
    watches={"utility": entry_itself},
    subjects=_subjects,
    examine=_examine,
)
