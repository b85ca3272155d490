"""name_given_twice: two setups, or two turning points, that stand under one name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.found import found
from models.entries.envelope import Entry
from models.job_state import JobState

_DRAWERS = ("setup", "turning_named")


def _named(state: JobState, entry: Entry) -> Iterable[str]:
    body = entry.body
    return (str(getattr(body, "point_id" if entry.kind == "turning_point" else "setup_id", "")),)


def _subjects(state: JobState) -> Iterable[str]:
    return dict.fromkeys(name for drawer in _DRAWERS for name in state.all_names(drawer))


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for drawer in _DRAWERS:
        bearers = state.current(drawer, subject)
        if len(bearers) > 1:
            yield found(CHECK.id, subject, bearers, place=drawer, name=subject, count=len(bearers))


CHECK = Check(
    id="name_given_twice",
    severity=Severity.STOP,
    problem="Two setups, or two turning points, have the same name.",
    why="What was read from the first now counts as if it had been read from the last, so its "
    "levels have moved.",
    cure="Correct one of them to a name of its own, and its readings to that name.",
    message="The name {name} was given more than once; readings that have it: {count}.",
    watches=dict.fromkeys(("setup", "turning_point"), _named),
    subjects=_subjects,
    examine=_examine,
)
