"""tie_off_plan: a taped distance differs from what the plan's coordinates give."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.planning import PermanentPoint, Tie
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import AnyEntry
from models.entries.index import Index
from models.queries.layout.tied_ends import planned_tie
from models.state.indexes import TIES_FROM, TIES_OF, TIES_ON
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for entry in state.current(TIES_FROM, subject):
        tie = entry.body
        planned = planned_tie(state, tie)
        if planned is not None and not planned.agrees:
            yield make_finding(
                CHECK.id,
                subject,
                [entry],
                place=entry.id,
                point=subject,
                end=_end_of(planned.tie),
                read_nm=planned.tie.distance_nm,
                planned_nm=planned.by_plan_nm,
                limit_nm=planned.limit_nm,
            )


def _end_of(tie: Tie) -> str:
    name = tie.collector_id or f"{tie.surface_id} {tie.line_id}"
    return f"{name} {tie.tied.split('_')[1]}"


def _points(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Points whose ties an entry touches."""
    body = entry.body
    if isinstance(body, Tie | PermanentPoint):
        return (body.point_id,)
    if isinstance(body, Surface):
        return _tied_from(state, TIES_ON, body.surface_id)
    return _tied_from(state, TIES_OF, body.collector_id) if isinstance(body, Collector) else ()


def _tied_from(state: JobState, index: Index[Tie, str], name: str) -> Iterable[str]:
    return {tie.point_id for tie in state.bodies(index, name)}


CHECK = Check(
    id="tie_off_plan",
    severity=Severity.NOTE,
    problem="A taped distance differs from the plan's coordinates.",
    why="One of the two is wrong, and whoever digs by it later digs in the wrong place.",
    cure="Tape it again, level; if it stands, measure the point or the end in anew.",
    message="{point} to {end}: taped {read_nm:length}, by the plan {planned_nm:length}; "
    "{limit_nm:length} is allowed.",
    watches=dict.fromkeys(("tie", "permanent_point", "surface", "collector"), _points),
    subjects=lambda state: state.every_name(TIES_FROM),
    examine=_examine,
)
