"""plane_along_another: shots under a plane that is dialled to a grade along another collector."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import SETUP
from models.queries.levelling.setup_chain import is_graded, newest
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState


def _subjects(state: JobState) -> Iterable[str]:
    return state.every_name(SHOTS_FROM)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = newest(state, SETUP, subject)
    if entry is None or not is_graded(entry.body):
        return
    own = entry.body.collector_id
    shots = [shot for shot in state.current(SHOTS_FROM, subject) if shot.body.collector_id != own]
    if shots:
        yield make_finding(CHECK.id, subject, [entry, *shots], setup_id=subject, shots=len(shots))


CHECK = Check(
    id="plane_along_another",
    severity=Severity.FIX,
    problem="Shots were taken under a plane that is dialled along another collector.",
    why="A graded plane has a height only along the collector that it follows; over any other "
    "the shots say nothing, and they are left out.",
    cure="Correct the setup to the collector it was dialled along, or take the shots again.",
    message="Setup {setup_id} is dialled to a grade along another collector than that of its "
    "shots; shots that have no level: {shots}.",
    watches=dict.fromkeys(("setup", "grade_shot"), setup_of_entry),
    subjects=_subjects,
    examine=_examine,
)
