"""How what lies in the ground is found again: permanent points, and distances from them."""

from __future__ import annotations

from typing import Any

from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_collector, need_point, need_surface
from crewapp.job.open_job import Changed, OpenJob
from models.entries.kind_names import PERMANENT_POINT
from models.errors import CrewError


class PointTakenError(CrewError, ValueError):
    """A permanent point was given a name that another bears."""

    code = "ties.point_taken"
    sentence = (
        "Nothing was written: {name} is a permanent point already, and ties hang from it. "
        "{free} would be accepted; a slip in the old one is corrected in its own entry."
    )


class TieToNothingError(CrewError, ValueError):
    """A tie does not say what it leads to."""

    code = "ties.to_nothing"
    sentence = (
        "Nothing was written: the tie from {point} says not what it leads to. A line with its "
        "surface, a collector's end, or words for something else would be accepted."
    )


def next_point_id(job: OpenJob) -> str:
    """Name for the next permanent point: PP1, PP2 and so on."""
    number = len(job.state.all_names(PERMANENT_POINT)) + 1
    while job.state.is_used(PERMANENT_POINT, f"PP{number}"):
        number += 1
    return f"PP{number}"


def add_permanent_point(
    job: OpenJob,
    *,
    where: str,
    point_id: str = "",
    x_nm: int | None = None,
    y_nm: int | None = None,
) -> Changed:
    """Log a point that will still be there in ten years; it is named here unless a name is given.

    Raises
    ------
    PointTakenError, EntryRefusedError
        If the name is given already, or nothing says where it is; nothing is written.
    """
    if point_id and job.state.is_used(PERMANENT_POINT, point_id):
        raise PointTakenError(name=point_id, free=next_point_id(job))
    return write(
        job,
        "permanent_point",
        point_id=point_id or next_point_id(job),
        where=where,
        x_nm=x_nm,
        y_nm=y_nm,
    )


def tie_end(
    job: OpenJob,
    *,
    tied: str,
    point_id: str,
    distance_nm: int,
    distance_typed: str = "",
    surface_id: str = "",
    line_id: str = "",
    collector_id: str = "",
    what: str = "",
) -> Changed:
    """Log the level distance from a permanent point to an end of a line or collector.

    Raises
    ------
    TieToNothingError, UnknownPlaceError, UnknownLineError, EntryRefusedError
        If it names nothing, or something that the job does not have; nothing is written.
    """
    need_point(job, point_id)
    if tied.startswith("line") and surface_id and line_id:
        need_surface(job, surface_id, (line_id,))
    elif tied.startswith("collector") and collector_id:
        need_collector(job, collector_id)
    elif tied.startswith(("line", "collector")) or not what:
        raise TieToNothingError(point=point_id)
    return write(
        job,
        "tie",
        tied=tied,
        surface_id=surface_id,
        line_id=line_id,
        collector_id=collector_id,
        what=what,
        point_id=point_id,
        distance_nm=distance_nm,
        distance_typed=distance_typed,
    )


def see_outlet(job: OpenJob, *, outlet_id: str, flows: str, **fields: Any) -> Changed:
    """Log an outlet as it is seen: of a collector, by the collector's name.

    Raises
    ------
    UnknownPlaceError
        If the job has no such collector; nothing is written.
    """
    need_collector(job, outlet_id)
    return write(job, "outlet_seen", outlet_id=outlet_id, flows=flows, **fields)
