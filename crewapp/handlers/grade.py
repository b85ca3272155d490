"""Handlers of laser and collector work: setups, shots, layers, hold points."""

from __future__ import annotations

from crewapp.commands.grade import (
    CheckLayer,
    CheckSetup,
    NoteProtection,
    ReadTurningPoint,
    ReleaseHold,
    SetUpLaser,
    ShootGrade,
)
from crewapp.handlers.entries import write
from crewapp.handlers.known_places import need_station
from crewapp.handlers.lasers import need_instrument
from crewapp.handlers.naming import free_name
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
from models.entries.body import Body
from models.entries.index import Index
from models.entries.kind_names import BENCHMARK, SETUP
from models.errors import CrewError
from models.queries.levelling.peg_tests import only_instrument
from models.queries.levelling.setup_chain import is_graded
from models.state.indexes import SETUPS_ON, TURNING_NAMED
from models.units.station import StationRange


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
    return free_name(job, SETUP, len(job.state.every_name(SETUP)) + 1, "L{number}")


@handles(SetUpLaser)
def set_up_laser(job: OpenJob, command: SetUpLaser) -> JobChanges:
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
    if command.instrument_id:
        need_instrument(job, command.instrument_id)
    free = next_setup_id(job)
    if command.setup_id and job.state.is_used(SETUP, command.setup_id):
        raise NameTakenError(name=command.setup_id, what="setup", free=free)
    _need_height(job, command.on_point, command.plane, command.collector_id)
    return write(
        job,
        LaserSetup(
            setup_id=command.setup_id or free,
            collector_id=command.collector_id,
            instrument=command.instrument,
            on_point=command.on_point,
            backsight_nm=command.backsight_nm,
            backsight_typed=command.backsight_typed,
            plane=command.plane,
            fall_nm=command.fall_nm,
            run_nm=command.run_nm,
            at_station_nm=command.at_station_nm,
            reading_error_nm=command.reading_error_nm,
            calibrated_on=command.calibrated_on,
            instrument_id=command.instrument_id or only_instrument(job.state),
            stands_at_nm=command.stands_at_nm,
            backsight_far_nm=command.backsight_far_nm,
        ),
    )


@handles(ReadTurningPoint)
def read_turning_point(job: OpenJob, command: ReadTurningPoint) -> JobChanges:
    """Log the foresight on a turning point.

    Raises
    ------
    NameTakenError
        If another point has the name.
    PlaneUnfitError
        If the plane is dialled to a grade: how high it is over the point, nobody knows.
    """
    setup = _need_setup(job, command.setup_id)
    if any(job.state.current(index, command.point_id) for index in _BEARERS):
        raise NameTakenError(
            name=command.point_id, what="point", free="A name that no point has had"
        )
    if is_graded(setup):
        raise PlaneUnfitError(
            why=f"the plane of {command.setup_id} is dialled to a grade, so it has no one height",
            forms="A turning point read from a level plane",
        )
    return write(
        job,
        TurningPoint(
            setup_id=command.setup_id,
            point_id=command.point_id,
            foresight_nm=command.foresight_nm,
            foresight_typed=command.foresight_typed,
            far_nm=command.far_nm,
        ),
    )


@handles(CheckSetup)
def check_setup(job: OpenJob, command: CheckSetup) -> JobChanges:
    """Log a check shot on a benchmark."""
    _need_setup(job, command.setup_id)
    return write(
        job,
        CheckShot(
            setup_id=command.setup_id,
            on_point=command.on_point,
            reading_nm=command.reading_nm,
            reading_typed=command.reading_typed,
            far_nm=command.far_nm,
        ),
    )


@handles(ShootGrade)
def shoot_grade(job: OpenJob, command: ShootGrade) -> JobChanges:
    """Log a rod reading at a station of a collector.

    Raises
    ------
    PlaneUnfitError
        If the plane is dialled to a grade along another collector.
    BeyondCollectorError
        If the collector has no such station.
    """
    need_station(job, command.collector_id, command.station_nm)
    setup = _need_setup(job, command.setup_id)
    if is_graded(setup) and setup.collector_id != command.collector_id:
        along = setup.collector_id or "no collector"
        raise PlaneUnfitError(
            why=f"the plane of {command.setup_id} is dialled along {along}",
            forms=f"A setup that is level, or dialled along {command.collector_id},",
        )
    return write(
        job,
        GradeShot(
            setup_id=command.setup_id,
            collector_id=command.collector_id,
            station_nm=command.station_nm,
            station_typed=command.station_typed,
            on=command.on,
            reading_nm=command.reading_nm,
            reading_typed=command.reading_typed,
        ),
    )


@handles(CheckLayer)
def check_layer(job: OpenJob, command: CheckLayer) -> JobChanges:
    """Log a layer of the collector placed and looked at."""
    stretch = _stretch(job, command)
    return write(
        job,
        LayerCheck(
            collector_id=command.collector_id,
            from_nm=stretch.low_nm,
            to_nm=stretch.high_nm,
            layer=command.layer,
            thickness_nm=command.thickness_nm,
            thickness_typed=command.thickness_typed,
            continuous=command.continuous,
            note=command.note,
        ),
    )


@handles(ReleaseHold)
def release_hold(job: OpenJob, command: ReleaseHold) -> JobChanges:
    """Give leave to cover a length of the collector."""
    stretch = _stretch(job, command)
    return write(
        job,
        HoldPoint(
            collector_id=command.collector_id,
            from_nm=stretch.low_nm,
            to_nm=stretch.high_nm,
            released_by=command.released_by,
            note=command.note,
        ),
    )


@handles(NoteProtection)
def note_protection(job: OpenJob, command: NoteProtection) -> JobChanges:
    """Log how people in the trench are kept safe."""
    stretch = _stretch(job, command)
    return write(
        job,
        TrenchProtection(
            collector_id=command.collector_id,
            from_nm=stretch.low_nm,
            to_nm=stretch.high_nm,
            depth_nm=command.depth_nm,
            depth_typed=command.depth_typed,
            protection=command.protection,
            judged_by=command.judged_by,
        ),
    )


def _stretch(job: OpenJob, command: CheckLayer | ReleaseHold | NoteProtection) -> StationRange:
    """Return the stretch that a command names, its ends in order; both are on the collector."""
    need_station(job, command.collector_id, command.from_nm, command.to_nm)
    return StationRange.between(command.from_nm, command.to_nm)


def _need_height(job: OpenJob, on_point: str, plane: str, collector_id: str) -> None:
    """Refuse a setup whose height nobody could know."""
    if plane == "graded" and not collector_id:
        raise PlaneUnfitError(
            why="a plane dialled to a grade follows a collector, and none is named",
            forms="The collector, or a level plane,",
        )
    known = [*job.state.every_name(BENCHMARK), *job.state.every_name(TURNING_NAMED)]
    if on_point not in known:
        raise UnknownPointError(point=on_point, points=", ".join(known) or "none yet")


def _need_setup(job: OpenJob, setup_id: str) -> LaserSetup:
    setup = job.state.latest(SETUP, setup_id)
    if not isinstance(setup, LaserSetup):
        raise UnknownSetupError(setup_id=setup_id)
    return setup
