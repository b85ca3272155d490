"""Handlers of permanent points and the distances from them to ends and outlets."""

from __future__ import annotations

from crewapp.commands.ties import AddPermanentPoint, LogOutlet, TieEnd
from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_collector, need_outlet, need_point, need_surface
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.collector_work import OutletSeen
from models.entries.bodies.planning import PermanentPoint, Tie
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
    number = len(job.state.every_name(PERMANENT_POINT)) + 1
    while job.state.is_used(PERMANENT_POINT, f"PP{number}"):
        number += 1
    return f"PP{number}"


@handles(AddPermanentPoint)
def add_permanent_point(job: OpenJob, command: AddPermanentPoint) -> JobChanges:
    """Log a point that will still be there in ten years; it is named here unless a name is given.

    Raises
    ------
    PointTakenError, EntryRefusedError
        If the name is given already, or nothing says where it is; nothing is written.
    """
    if command.point_id and job.state.is_used(PERMANENT_POINT, command.point_id):
        raise PointTakenError(name=command.point_id, free=next_point_id(job))
    return write(
        job,
        PermanentPoint(
            point_id=command.point_id or next_point_id(job),
            where=command.where,
            x_nm=command.x_nm,
            y_nm=command.y_nm,
        ),
    )


@handles(TieEnd)
def tie_end(job: OpenJob, command: TieEnd) -> JobChanges:
    """Log the level distance from a permanent point to an end of a line or collector.

    Raises
    ------
    TieToNothingError, UnknownPlaceError, UnknownLineError, EntryRefusedError
        If it names nothing, or something that the job does not have; nothing is written.
    """
    need_point(job, command.point_id)
    if command.tied.startswith("line") and command.surface_id and command.line_id:
        need_surface(job, command.surface_id, (command.line_id,))
    elif command.tied.startswith("collector") and command.collector_id:
        need_collector(job, command.collector_id)
    elif command.tied.startswith(("line", "collector")) or not command.what:
        raise TieToNothingError(point=command.point_id)
    return write(
        job,
        Tie(
            tied=command.tied,
            surface_id=command.surface_id,
            line_id=command.line_id,
            collector_id=command.collector_id,
            what=command.what,
            point_id=command.point_id,
            distance_nm=command.distance_nm,
            distance_typed=command.distance_typed,
        ),
    )


@handles(LogOutlet)
def log_outlet(job: OpenJob, command: LogOutlet) -> JobChanges:
    """Log an outlet as it is seen: by its own name, else by that of its collector.

    Raises
    ------
    UnknownPlaceError
        If the job has no such outlet or collector; nothing is written.
    """
    need_outlet(job, command.outlet_id)
    return write(
        job,
        OutletSeen(
            outlet_id=command.outlet_id,
            flows=command.flows,
            note=command.note,
            invert_nm=command.invert_nm,
            invert_typed=command.invert_typed,
            water_nm=command.water_nm,
            water_typed=command.water_typed,
            placed_by=command.placed_by,
            lat_ndeg=command.lat_ndeg,
            lon_ndeg=command.lon_ndeg,
            placed_sd_nm=command.placed_sd_nm,
        ),
    )
