"""tie_off_plan: a taped distance differs from what the plan's coordinates give."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.found import found
from models.entries.envelope import Entry
from models.entries.planning import PermanentPoint, Tie
from models.entries.surface import Collector, Surface
from models.job_state import JobState
from models.tied_ends import planned_tie


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for entry in state.current("ties_from", subject):
        tie = entry.body
        planned = planned_tie(state, tie) if isinstance(tie, Tie) else None
        if planned is not None and not planned.agrees:
            yield found(
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


def _points(state: JobState, entry: Entry) -> Iterable[str]:
    """Points whose ties an entry touches."""
    body = entry.body
    if isinstance(body, Tie | PermanentPoint):
        return (body.point_id,)
    if isinstance(body, Surface):
        return _tied_from(state, "ties_on", body.surface_id)
    return _tied_from(state, "ties_of", body.collector_id) if isinstance(body, Collector) else ()


def _tied_from(state: JobState, drawer: str, name: str) -> Iterable[str]:
    bodies = state.bodies(drawer, name)
    return {body.point_id for body in bodies if isinstance(body, Tie)}


CHECK = Check(
    id="tie_off_plan",
    severity=Severity.NOTE,
    problem="A taped distance differs from the plan's coordinates.",
    why="One of the two is wrong, and whoever digs by it later digs in the wrong place.",
    cure="Tape it again, level; if it stands, measure the point or the end in anew.",
    message="{point} to {end}: taped {read_nm:length}, by the plan {planned_nm:length}; "
    "{limit_nm:length} is allowed.",
    watches=dict.fromkeys(("tie", "permanent_point", "surface", "collector"), _points),
    subjects=lambda state: state.all_names("ties_from"),
    examine=_examine,
)
