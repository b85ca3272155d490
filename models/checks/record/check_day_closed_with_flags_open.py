"""day_closed_with_flags_open: a day was closed over flags that nobody had answered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries import id_fields
from models.entries.bodies.day import DayClosed
from models.entries.envelope import AnyEntry
from models.state.indexes import DAY_ACTS
from models.state.job_state import JobState


def _day_named(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return (id_fields.act_day_of(entry.body),)


def _subjects(state: JobState) -> Iterable[str]:
    return state.every_name(DAY_ACTS)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    acts = state.current(DAY_ACTS, subject)
    last = acts[-1].body if acts else None
    if isinstance(last, DayClosed) and last.open_flags:
        yield make_finding(CHECK.id, subject, acts[-1:], day=subject, flags=last.open_flags)


CHECK = Check(
    id="day_closed_with_flags_open",
    severity=Severity.NOTE,
    problem="A day was closed with flags open.",
    why="The owner's sheet shows faults, and nobody has said what became of them.",
    cure="Reopen the day with a reason, answer its flags, and close it again.",
    message="{day} was closed with flags open: {flags}.",
    watches=dict.fromkeys(("day_closed", "day_reopened"), _day_named),
    subjects=_subjects,
    examine=_examine,
)
