"""What else a stranger needs: utilities met, permanent points, ties, photos."""

from __future__ import annotations

from models.entries.collector_work import UtilityMet
from models.entries.day import Photo
from models.entries.envelope import Entry
from models.entries.planning import PermanentPoint, Tie
from models.entries.surface import Collector
from models.job_state import JobState
from sync.sheets.asbuilt.course import apart_nm, course_of
from sync.sheets.asbuilt.features import FoundUtility, PermanentMark, PhotoTaken, TieMeasured
from sync.sheets.asbuilt.places import Place
from sync.sheets.asbuilt.slit_pieces import line_ends
from sync.sheets.slit_facts import current_of


def utilities_of(state: JobState) -> tuple[FoundUtility, ...]:
    """Everything met in the ground, in the order of the book."""
    return tuple(
        FoundUtility(
            event=body.event,
            what=body.what,
            where=body.where,
            at=place_or_none(body.x_nm, body.y_nm),
            depth_nm=body.depth_nm,
            depth_typed=body.depth_typed,
            action=body.action,
            day=entry.day,
            author=entry.author,
        )
        for entry in current_of(state, "utility")
        if isinstance(body := entry.body, UtilityMet)
    )


def points_of(state: JobState) -> tuple[PermanentMark, ...]:
    """Permanent points, each as last written."""
    found = (state.latest("permanent_point", name) for name in state.all_names("permanent_point"))
    return tuple(
        PermanentMark(one.point_id, one.where, place_or_none(one.x_nm, one.y_nm))
        for one in found
        if isinstance(one, PermanentPoint)
    )


def ties_of(state: JobState) -> tuple[TieMeasured, ...]:
    """Measured ties, in the order of the book."""
    return tuple(
        _tie(state, entry, entry.body)
        for entry in current_of(state, "tie")
        if isinstance(entry.body, Tie)
    )


def _tie(state: JobState, entry: Entry, tie: Tie) -> TieMeasured:
    mark = state.latest("permanent_point", tie.point_id)
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
    collector = state.latest("collector", tie.collector_id) if tie.collector_id else None
    if tie.tied == "other" or not isinstance(collector, Collector) or not collector.design.path:
        return None
    course = course_of(collector.design.path)
    begins_at_outlet = collector.design.stationed_from == "outlet"
    return course[0] if (tie.tied == "collector_outlet") == begins_at_outlet else course[-1]


def photos_of(state: JobState) -> tuple[PhotoTaken, ...]:
    """Photos by the name of their file, in the order of the book."""
    return tuple(
        PhotoTaken(body.sha256, body.suffix, body.caption, body.where, entry.day, entry.author)
        for entry in current_of(state, "photo")
        if isinstance(body := entry.body, Photo)
    )


def place_or_none(x_nm: int | None, y_nm: int | None) -> Place | None:
    """Place of two coordinates; a single one is no place."""
    return Place(x_nm, y_nm) if x_nm is not None and y_nm is not None else None
