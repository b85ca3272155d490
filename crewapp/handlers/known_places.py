"""Places that an entry may name: surfaces with their lines, collectors, permanent points."""

from __future__ import annotations

from collections.abc import Sequence

from crewapp.handlers.passes import UnknownLineError
from crewapp.job.open_job import OpenJob
from models.entries.body import Body
from models.entries.index import Index
from models.entries.kind_names import COLLECTOR, OUTLET, PERMANENT_POINT, SURFACE
from models.errors import CrewError
from models.queries.layout.measured_places import planned_run

_MOST_TOLD = 8


class UnknownPlaceError(CrewError, LookupError):
    """An entry names a surface, a collector or a point that the job does not have."""

    code = "actions.unknown_place"
    sentence = "Nothing was written: this job has no {sort} {name}. {known}"


class BeyondCollectorError(CrewError, ValueError):
    """A station lies beyond the ends of its collector."""

    code = "actions.off_run"
    sentence = (
        "Nothing was written: station {station} is not on {collector}, which is {length} long, "
        "from {start} to {end}. A station from {start} to {end} would be accepted."
    )


def need_surface(job: OpenJob, surface_id: str, line_ids: Sequence[str] = ()) -> None:
    """Hold that a surface is of this job, and that its plan has the lines.

    Raises
    ------
    UnknownPlaceError, UnknownLineError
        If there is no such surface, or no such line on it.
    """
    _need(job, SURFACE, "surface", surface_id)
    surface = job.state.latest(SURFACE, surface_id)
    planned = [line.line_id for line in surface.lines] if surface else []
    for line_id in line_ids:
        if line_id not in planned:
            lines = _told(planned) or "not laid out yet"
            raise UnknownLineError(surface=surface_id, line=line_id, lines=lines)


def need_collector(job: OpenJob, collector_id: str) -> None:
    """Hold that a collector is of this job.

    Raises
    ------
    UnknownPlaceError
        If there is no such collector.
    """
    _need(job, COLLECTOR, "collector", collector_id)


def need_outlet(job: OpenJob, name: str) -> None:
    """Hold that an outlet, or a collector whose outlet has no name of its own, is of this job.

    Raises
    ------
    UnknownPlaceError
        If there is neither.
    """
    if name not in job.state.every_name(COLLECTOR):
        _need(job, OUTLET, "outlet", name)


def need_station(job: OpenJob, collector_id: str, *stations_nm: int) -> None:
    """Hold that a collector has these stations, where its plan is known.

    Raises
    ------
    BeyondCollectorError
        If one of them lies before its start or beyond its end.
    """
    run = planned_run(job.state, collector_id)
    for at_nm in stations_nm if run is not None else ():
        if run is not None and not run.holds(at_nm):
            show = job.figures.station
            raise BeyondCollectorError(
                station=show(at_nm),
                collector=collector_id,
                length=job.figures.length(run.end_nm - run.start_nm),
                start=show(run.start_nm),
                end=show(run.end_nm),
            )


def need_point(job: OpenJob, point_id: str) -> None:
    """Hold that a permanent point is written down.

    Raises
    ------
    UnknownPlaceError
        If there is no such point.
    """
    _need(job, PERMANENT_POINT, "permanent point", point_id)


def _need(job: OpenJob, index: Index[Body, str], sort: str, name: str) -> None:
    names = job.state.every_name(index)
    if name not in names:
        known = f"It has {_told(list(names))}." if names else f"Write down the {sort} first."
        raise UnknownPlaceError(sort=sort, name=name or "without a name", known=known)


def _told(names: Sequence[str]) -> str:
    return ", ".join(names[:_MOST_TOLD]) + (" ..." if len(names) > _MOST_TOLD else "")
