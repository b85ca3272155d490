"""What the crew does with the laser and the collector."""

from __future__ import annotations

from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_station
from crewapp.handlers.lasers import need_instrument
from crewapp.handlers.naming import free_name
from crewapp.job.open_job import Changed, OpenJob
from models.entries.bodies.levels import LaserSetup
from models.entries.body import Body
from models.entries.index import Index
from models.entries.kind_names import BENCHMARK, SETUP
from models.errors import CrewError
from models.queries.levelling.peg_tests import only_instrument
from models.queries.levelling.setup_chain import is_graded
from models.state.indexes import SETUPS_ON, TURNING_NAMED


class UnknownSetupError(CrewError, LookupError):
    """A shot names a setup that has not been logged."""

    code = "actions.unknown_setup"
    sentence = "Nothing was written: there is no setup {setup_id} yet. Log the setup first."


class UnknownPointError(CrewError, LookupError):
    """A backsight is on a point whose elevation nobody knows."""

    code = "actions.unknown_point"
    sentence = (
        "Nothing was written: {point} is neither a benchmark nor a turning point read before. "
        "Known points are {points}."
    )


class NameTakenError(CrewError, ValueError):
    """A setup or a turning point was given a name that older readings hang from."""

    code = "actions.name_taken"
    sentence = (
        "Nothing was written: {name} is the name of another {what} of this job, and its "
        "readings would move with it. {free} would be accepted."
    )


class PlaneUnfitError(CrewError, ValueError):
    """A plane dialled to a grade was to give a level where its height is not known."""

    code = "actions.plane_unfit"
    sentence = "Nothing was written: {why}. {forms} would be accepted."


_BEARERS: tuple[Index[Body, str], ...] = (TURNING_NAMED, BENCHMARK, SETUPS_ON)
"""Indexes that tell whether a point's name is in use, setups on a struck one included."""


def next_setup_id(job: OpenJob) -> str:
    """Name for the next setup: L1, L2 and so on; a struck one is not given again.

    On a tablet that joined the job the name carries its mark.
    """
    return free_name(job, SETUP, len(job.state.all_names(SETUP)) + 1, "L{number}")


def set_up_laser(
    job: OpenJob,
    *,
    on_point: str,
    backsight_nm: int | None,
    backsight_typed: str = "",
    setup_id: str = "",
    collector_id: str = "",
    instrument: str = "",
    plane: str = "level",
    fall_nm: int = 0,
    run_nm: int = 1,
    at_station_nm: int = 0,
    reading_error_nm: int = 1_524_000,
    calibrated_on: str | None = None,
    instrument_id: str = "",
) -> Changed:
    """Log a setup with its backsight; a graded plane states its fall.

    ``reading_error_nm`` is by default half of a hundredth of a foot. The only instrument of
    a job is the one that was set up; of several, ``instrument_id`` names it.

    Raises
    ------
    UnknownPointError
        If the point is neither a benchmark nor a turning point; nothing is written.
    NameTakenError
        If the name was given to a setup before.
    PlaneUnfitError
        If the plane is graded and no collector is named that it follows.
    UnknownInstrumentError
        If an instrument is named that the job does not have.
    """
    if instrument_id:
        need_instrument(job, instrument_id)
    free = next_setup_id(job)
    if setup_id and job.state.is_used(SETUP, setup_id):
        raise NameTakenError(name=setup_id, what="setup", free=free)
    _need_height(job, on_point, plane, collector_id)
    return write(
        job,
        "setup",
        setup_id=setup_id or free,
        collector_id=collector_id,
        instrument=instrument,
        on_point=on_point,
        backsight_nm=backsight_nm,
        backsight_typed=backsight_typed,
        plane=plane,
        fall_nm=fall_nm,
        run_nm=run_nm,
        at_station_nm=at_station_nm,
        reading_error_nm=reading_error_nm,
        calibrated_on=calibrated_on,
        instrument_id=instrument_id or only_instrument(job.state),
    )


def read_turning_point(
    job: OpenJob, *, setup_id: str, point_id: str, foresight_nm: int, foresight_typed: str = ""
) -> Changed:
    """Log the foresight on a turning point.

    Raises
    ------
    NameTakenError
        If another point has the name.
    PlaneUnfitError
        If the plane is dialled to a grade: how high it is over the point, nobody knows.
    """
    setup = _need_setup(job, setup_id)
    if any(job.state.current(index, point_id) for index in _BEARERS):
        raise NameTakenError(name=point_id, what="point", free="A name that no point has had")
    if is_graded(setup):
        raise PlaneUnfitError(
            why=f"the plane of {setup_id} is dialled to a grade, so it has no one height",
            forms="A turning point read from a level plane",
        )
    return write(
        job,
        "turning_point",
        setup_id=setup_id,
        point_id=point_id,
        foresight_nm=foresight_nm,
        foresight_typed=foresight_typed,
    )


def check_setup(
    job: OpenJob, *, setup_id: str, on_point: str, reading_nm: int, reading_typed: str = ""
) -> Changed:
    """Log a check shot on a benchmark."""
    _need_setup(job, setup_id)
    return write(
        job,
        "check_shot",
        setup_id=setup_id,
        on_point=on_point,
        reading_nm=reading_nm,
        reading_typed=reading_typed,
    )


def shoot_grade(
    job: OpenJob,
    *,
    setup_id: str,
    collector_id: str,
    station_nm: int,
    on: str,
    reading_nm: int,
    reading_typed: str = "",
    station_typed: str = "",
) -> Changed:
    """Log a rod reading at a station of a collector.

    Raises
    ------
    PlaneUnfitError
        If the plane is dialled to a grade along another collector.
    OffRunError
        If the collector has no such station.
    """
    need_station(job, collector_id, station_nm)
    setup = _need_setup(job, setup_id)
    if is_graded(setup) and setup.collector_id != collector_id:
        raise PlaneUnfitError(
            why=f"the plane of {setup_id} is dialled along {setup.collector_id or 'no collector'}",
            forms=f"A setup that is level, or dialled along {collector_id},",
        )
    return write(
        job,
        "grade_shot",
        setup_id=setup_id,
        collector_id=collector_id,
        station_nm=station_nm,
        station_typed=station_typed,
        on=on,
        reading_nm=reading_nm,
        reading_typed=reading_typed,
    )


def check_layer(
    job: OpenJob,
    *,
    collector_id: str,
    from_nm: int,
    to_nm: int,
    layer: str,
    thickness_nm: int | None = None,
    thickness_typed: str = "",
    continuous: bool | None = None,
    note: str = "",
) -> Changed:
    """Log a layer of the collector placed and looked at."""
    need_station(job, collector_id, from_nm, to_nm)
    return write(
        job,
        "layer_check",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        layer=layer,
        thickness_nm=thickness_nm,
        thickness_typed=thickness_typed,
        continuous=continuous,
        note=note,
    )


def release_hold(
    job: OpenJob, *, collector_id: str, from_nm: int, to_nm: int, released_by: str, note: str = ""
) -> Changed:
    """Give leave to cover a length of the collector."""
    need_station(job, collector_id, from_nm, to_nm)
    return write(
        job,
        "hold_point",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        released_by=released_by,
        note=note,
    )


def note_protection(
    job: OpenJob,
    *,
    collector_id: str,
    from_nm: int,
    to_nm: int,
    depth_nm: int,
    protection: str,
    judged_by: str,
    depth_typed: str = "",
) -> Changed:
    """Log how people in the trench are kept safe."""
    need_station(job, collector_id, from_nm, to_nm)
    return write(
        job,
        "trench_protection",
        collector_id=collector_id,
        from_nm=min(from_nm, to_nm),
        to_nm=max(from_nm, to_nm),
        depth_nm=depth_nm,
        depth_typed=depth_typed,
        protection=protection,
        judged_by=judged_by,
    )


def _need_height(job: OpenJob, on_point: str, plane: str, collector_id: str) -> None:
    """Refuse a setup whose height nobody could know."""
    if plane == "graded" and not collector_id:
        raise PlaneUnfitError(
            why="a plane dialled to a grade follows a collector, and none is named",
            forms="The collector, or a level plane,",
        )
    known = [*job.state.all_names(BENCHMARK), *job.state.all_names(TURNING_NAMED)]
    if on_point not in known:
        raise UnknownPointError(point=on_point, points=", ".join(known) or "none yet")


def _need_setup(job: OpenJob, setup_id: str) -> LaserSetup:
    setup = job.state.latest(SETUP, setup_id)
    if not isinstance(setup, LaserSetup):
        raise UnknownSetupError(setup_id=setup_id)
    return setup
