"""Lines that carry work, and those of them that a new plan would move or lose."""

from __future__ import annotations

from collections.abc import Iterable

from models.entries.bodies.planning import Tie
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.keys import line_key
from models.entries.kind_names import GRADE_SHOT, HOLD_POINT, LAYER_CHECK, TIE
from models.plan.line import PlannedLine
from models.state.indexes import CUTS_OF, PIPE_IN_COLLECTOR, PIPE_IN_LINE, TURF_OF
from models.state.job_state import JobState

SAME_PLACE_NM = 1_000_000
"""A line whose ends stay within a millimetre has not moved."""


def carries_work(state: JobState, surface_id: str, line_id: str) -> bool:
    """Whether anything was cut, lifted, laid or tied in a line, so that its name means a place."""
    line = line_key(surface_id, line_id)
    if any(state.current(index, line) for index in (CUTS_OF, PIPE_IN_LINE, TURF_OF)):
        return True
    ties: Iterable[Tie] = state.bodies(TIE)
    return any(tie.surface_id == surface_id and tie.line_id == line_id for tie in ties)


def moved_lines(state: JobState, old: Surface, new: Surface) -> tuple[str, ...]:
    """Names of worked lines that mean another place, or nothing, on the new surface."""
    places = {line.line_id: line for line in new.lines}
    return tuple(
        line.line_id
        for line in old.lines
        if not _is_same(line, places.get(line.line_id))
        and carries_work(state, old.surface_id, line.line_id)
    )


def are_stations_turned(state: JobState, old: Collector, new: Collector) -> bool:
    """Whether stations that work was written at would count from another place."""
    indexes = (GRADE_SHOT, LAYER_CHECK, HOLD_POINT, PIPE_IN_COLLECTOR)
    if not any(state.current(index, old.collector_id) for index in indexes):
        return False
    before, after = old.design, new.design
    return (before.stationed_from, before.start_nm) != (after.stationed_from, after.start_nm)


def _is_same(line: PlannedLine, other: PlannedLine | None) -> bool:
    """Whether two lines are one: same use, ends in the same places, the same way round."""
    if other is None or line.use != other.use:
        return False
    pairs = (
        (line.x1_nm, other.x1_nm),
        (line.y1_nm, other.y1_nm),
        (line.x2_nm, other.x2_nm),
        (line.y2_nm, other.y2_nm),
    )
    return all(abs(here - there) <= SAME_PLACE_NM for here, there in pairs)
