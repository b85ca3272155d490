"""Tied ends: the end that a tie names, its place on the plan, and how far a point is off."""

from __future__ import annotations

from dataclasses import dataclass
from math import isqrt

from models.entries.bodies.planning import PermanentPoint, Tie
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, PERMANENT_POINT, SURFACE
from models.state.job_state import JobState
from models.units.spec import FOOT_NM

PlaceNm = tuple[int, int]
SHARE = 100
"""A tie may differ from the plan by a foot or by one part in so many, whichever is more."""


@dataclass(frozen=True, slots=True)
class PlannedTie:
    """A tie of which the plan knows both ends; lengths in nm."""

    tie: Tie
    point: PlaceNm
    end: PlaceNm

    @property
    def by_plan_nm(self) -> int:
        """Distance by the plan's coordinates, to the nanometre below."""
        return isqrt(self._squared)

    @property
    def limit_nm(self) -> int:
        """How far the tape may differ (common practice, no source)."""
        return max(FOOT_NM, self.tie.distance_nm // SHARE)

    @property
    def agrees(self) -> bool:
        """Whether the tape lies within the limit, compared exactly; on the limit it does."""
        most, least = self.tie.distance_nm + self.limit_nm, self.tie.distance_nm - self.limit_nm
        return max(least, 0) ** 2 <= self._squared <= most**2

    @property
    def _squared(self) -> int:
        return (self.point[0] - self.end[0]) ** 2 + (self.point[1] - self.end[1]) ** 2


def planned_tie(state: JobState, tie: Tie) -> PlannedTie | None:
    """Return a tie beside the plan, or None where the plan lacks either end."""
    point = state.latest(PERMANENT_POINT, tie.point_id)
    end = planned_end(state, tie)
    if end is None or not isinstance(point, PermanentPoint):
        return None
    if point.x_nm is None or point.y_nm is None:
        return None
    return PlannedTie(tie, (point.x_nm, point.y_nm), end)


def planned_end(state: JobState, tie: Tie) -> PlaceNm | None:
    """Return where the plan has what a tie leads to, or None."""
    if tie.tied.startswith("line"):
        surface = state.latest(SURFACE, tie.surface_id)
        place = surface.places.get(tie.line_id) if surface is not None else None
        if place is None:
            return None
        line = place.line
        is_start = tie.tied == "line_start"
        return (line.x1_nm, line.y1_nm) if is_start else (line.x2_nm, line.y2_nm)
    collector = state.latest(COLLECTOR, tie.collector_id) if tie.collector_id else None
    if tie.tied == "other" or not isinstance(collector, Collector) or not collector.design.path:
        return None
    design = collector.design
    is_first = (tie.tied == "collector_outlet") == (design.stationed_from == "outlet")
    point = design.path[0] if is_first else design.path[-1]
    return point.x_nm, point.y_nm
