"""name_given_twice: two setups, or two turning points, that stand under one name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries import id_fields
from models.entries.bodies.levels import TurningPoint
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SETUP
from models.state.indexes import TURNING_NAMED
from models.state.job_state import JobState

_NAMES = (SETUP, TURNING_NAMED)


def _named(state: JobState, entry: AnyEntry) -> Iterable[str]:
    body = entry.body
    return (body.point_id if isinstance(body, TurningPoint) else id_fields.setup_id_of(body),)


def _subjects(state: JobState) -> Iterable[str]:
    return dict.fromkeys(name for index in _NAMES for name in state.every_name(index))


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for index in _NAMES:
        bearers = state.current(index, subject)
        if len(bearers) > 1:
            yield make_finding(
                CHECK.id, subject, bearers, place=index.name, name=subject, count=len(bearers)
            )


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
