"""Survey features of an as-built: utilities met, permanent points, ties, photos."""

from __future__ import annotations

from models.entries.bodies.collector_work import OutletSeen, UtilityMet
from models.entries.bodies.outlets import BAD_AIR
from models.entries.bodies.planning import PermanentPoint, Tie
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import (
    COLLECTOR,
    OUTLET,
    OUTLET_SEEN,
    PERMANENT_POINT,
    PHOTO,
    TIE,
    UTILITY,
)
from models.errors import CalculationInputError
from models.science.shapes.projection import NANODEGREES, LocalProjection, to_local
from models.state.job_state import JobState
from sync.papers.asbuilt.features.course import ByPosition, Place, apart_nm, course_of
from sync.papers.asbuilt.features.feature_types import (
    OutletAt,
    PermanentMark,
    PhotoTaken,
    TieMeasured,
    UtilityFeature,
)
from sync.papers.asbuilt.features.slit_features import line_ends
from sync.papers.day.facts.slits import current_of
from sync.papers.wording.position_text import is_by_position


def utilities_of(
    state: JobState, projection: LocalProjection | None = None
) -> tuple[UtilityFeature, ...]:
    """Utilities met in the ground, in the order of the book.

    What the tablet's position placed lies on the plan where the plane is tied to the Earth.
    """
    return tuple(
        UtilityFeature(
            event=body.event,
            what=body.what,
            where=body.where,
            at=place_or_none(body.x_nm, body.y_nm) or in_plane(position_of(body), projection),
            depth_nm=body.depth_nm,
            depth_typed=body.depth_typed,
            action=body.action,
            day=entry.day,
            author=entry.author,
            by_position=position_of(body),
        )
        for entry in current_of(state, UTILITY)
        for body in (entry.body,)
    )


def outlets_of(state: JobState, projection: LocalProjection | None) -> tuple[OutletAt, ...]:
    """Outlets, each as it was last seen; its place as planned, where no position was taken."""
    found = []
    for name in state.every_name(OUTLET_SEEN):
        entry = state.current(OUTLET_SEEN, name)[-1]
        if isinstance(body := entry.body, OutletSeen):
            by = position_of(body)
            planned = state.latest(OUTLET, name)
            at = in_plane(by, projection)
            if at is None and planned is not None and planned.at is not None:
                at = Place(planned.at.x_nm, planned.at.y_nm)
            caution = BAD_AIR if planned is not None and planned.has_bad_air else ""
            seen = (body.outlet_id, body.flows, body.note, at, by, entry.day, entry.author)
            found.append(OutletAt(*seen, body.invert_nm, body.water_nm, caution))
    return tuple(found)


def position_of(body: UtilityMet | OutletSeen) -> ByPosition | None:
    """Position of the tablet, for a place that was recorded by it."""
    if not is_by_position(body) or body.lat_ndeg is None or body.lon_ndeg is None:
        return None
    return ByPosition(body.lat_ndeg, body.lon_ndeg, body.placed_sd_nm)


def in_plane(by: ByPosition | None, projection: LocalProjection | None) -> Place | None:
    """A position on the plan; None where the plane is tied to nothing, or lies far from it."""
    if by is None or projection is None:
        return None
    try:
        point = to_local(by.lon_ndeg / NANODEGREES, by.lat_ndeg / NANODEGREES, projection)
    except CalculationInputError:
        return None
    return Place(point.x_nm, point.y_nm)


def points_of(state: JobState) -> tuple[PermanentMark, ...]:
    """Permanent points, each as last written."""
    found = (state.latest(PERMANENT_POINT, name) for name in state.every_name(PERMANENT_POINT))
    return tuple(
        PermanentMark(one.point_id, one.where, place_or_none(one.x_nm, one.y_nm))
        for one in found
        if isinstance(one, PermanentPoint)
    )


def ties_of(state: JobState) -> tuple[TieMeasured, ...]:
    """Measured ties, in the order of the book."""
    return tuple(_tie(state, entry, entry.body) for entry in current_of(state, TIE))


def _tie(state: JobState, entry: AnyEntry, tie: Tie) -> TieMeasured:
    mark = state.latest(PERMANENT_POINT, tie.point_id)
    point = place_or_none(mark.x_nm, mark.y_nm) if isinstance(mark, PermanentPoint) else None
    end = tied_place(state, tie)
    return TieMeasured(
        tied=tie.tied,
        name=_name_of(tie),
        surface_id=tie.surface_id,
        line_id=tie.line_id,
        collector_id=tie.collector_id,
        point_id=tie.point_id,
        point=point,
        end=end,
        distance_nm=tie.distance_nm,
        distance_typed=tie.distance_typed,
        by_plan_nm=apart_nm(point, end) if point and end else None,
        day=entry.day,
    )


def _name_of(tie: Tie) -> str:
    if tie.tied == "other":
        return tie.what
    end = tie.tied.split("_")[1]
    return f"{tie.collector_id or f'{tie.surface_id} {tie.line_id}'} {end}"


def tied_place(state: JobState, tie: Tie) -> Place | None:
    """Where the plan has what is tied, or None."""
    if tie.tied in {"line_start", "line_end"}:
        ends = line_ends(state, tie.surface_id, tie.line_id)
        return ends[tie.tied == "line_end"] if ends else None
    collector = state.latest(COLLECTOR, tie.collector_id) if tie.collector_id else None
    if tie.tied == "other" or not isinstance(collector, Collector) or not collector.design.path:
        return None
    course = course_of(collector.design.path)
    begins_at_outlet = collector.design.stationed_from == "outlet"
    return course[0] if (tie.tied == "collector_outlet") == begins_at_outlet else course[-1]


def photos_of(state: JobState) -> tuple[PhotoTaken, ...]:
    """Photos by the name of their file, in the order of the book."""
    return tuple(
        PhotoTaken(body.sha256, body.suffix, body.caption, body.where, entry.day, entry.author)
        for entry in current_of(state, PHOTO)
        for body in (entry.body,)
    )


def place_or_none(x_nm: int | None, y_nm: int | None) -> Place | None:
    """Place of two coordinates; a single one is no place."""
    return Place(x_nm, y_nm) if x_nm is not None and y_nm is not None else None
