"""Handlers of lasers and levels: which there are, what befell them, peg tests."""

from __future__ import annotations

from datetime import date, timedelta

from crewapp.commands.lasers import AddInstrument, LogInstrumentEvent, LogPegTest
from crewapp.handlers.entries import write
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
from models.entries.kind_names import INSTRUMENT
from models.errors import CrewError

US_STEP_NM, METRIC_STEP_NM = 3_048_000, 1_000_000
"""What a rod is read to where nobody says: a hundredth of a foot, a millimetre."""


class UnknownInstrumentError(CrewError, LookupError):
    """An instrument was named that the job does not have."""

    code = "actions.unknown_instrument"
    sentence = (
        "Nothing was written: there is no instrument {instrument_id} on this job. "
        "Its instruments are {known}."
    )


class InstrumentTakenError(CrewError, ValueError):
    """A new instrument was given the name of another."""

    code = "actions.instrument_taken"
    sentence = (
        "Nothing was written: {instrument_id} is the name of another instrument of this job, "
        "and its peg tests would be taken for this one's. Another name would be accepted."
    )


class PegDistancesError(CrewError, ValueError):
    """The second setup of a peg test was as far from A as from B."""

    code = "actions.peg_distances"
    sentence = (
        "Nothing was written: the second setup is as far from A as from B, so the error hides "
        "itself again. A second setup close to one of the pegs would be accepted."
    )


def need_instrument(job: OpenJob, instrument_id: str) -> None:
    """Refuse the name of an instrument that the job does not have.

    Raises
    ------
    UnknownInstrumentError
        If it has none of the name.
    """
    known = job.state.every_name(INSTRUMENT)
    if instrument_id not in known:
        raise UnknownInstrumentError(
            instrument_id=instrument_id[:40], known=", ".join(known) or "none yet"
        )


@handles(AddInstrument)
def add_instrument(job: OpenJob, command: AddInstrument) -> JobChanges:
    """Put a laser or level on the job's list; without a step its rod is read as is usual.

    Raises
    ------
    InstrumentTakenError
        If an instrument had the name before.
    """
    name = command.instrument_id.strip()
    if job.state.is_used(INSTRUMENT, name):
        raise InstrumentTakenError(instrument_id=name[:40])
    usual = US_STEP_NM if job.figures.is_us else METRIC_STEP_NM
    step = command.rod_step_nm or usual
    calibrated_on = None
    if command.calibrated_days_ago is not None:
        today = date.fromisoformat(job.clock.now().day)
        calibrated_on = (today - timedelta(days=command.calibrated_days_ago)).isoformat()
    return write(
        job,
        Instrument(
            instrument_id=name,
            what=command.what,
            rod_step_nm=step,
            serial=command.serial,
            plane_asec10=command.plane_asec10,
            peg_limit_millionths=command.peg_limit_millionths,
            peg_every_days=command.peg_every_days,
            calibrated_on=calibrated_on,
        ),
    )


@handles(LogInstrumentEvent)
def note_event(job: OpenJob, command: LogInstrumentEvent) -> JobChanges:
    """Log that an instrument was dropped, serviced, calibrated, or what else befell it.

    Raises
    ------
    UnknownInstrumentError
        If the job has no such instrument.
    """
    need_instrument(job, command.instrument_id)
    return write(
        job,
        InstrumentEvent(instrument_id=command.instrument_id, what=command.what, note=command.note),
    )


@handles(LogPegTest)
def log_peg_test(job: OpenJob, command: LogPegTest) -> JobChanges:
    """Log a two-peg test: four readings and the two distances of the second setup.

    Raises
    ------
    UnknownInstrumentError
        If the job has no such instrument.
    PegDistancesError
        If both distances are the same.
    """
    need_instrument(job, command.instrument_id)
    if command.to_a_nm == command.to_b_nm:
        raise PegDistancesError()
    return write(
        job,
        PegTest(
            instrument_id=command.instrument_id,
            mid_a_nm=command.mid_a_nm,
            mid_a_typed=command.mid_a_typed,
            mid_b_nm=command.mid_b_nm,
            mid_b_typed=command.mid_b_typed,
            end_a_nm=command.end_a_nm,
            end_a_typed=command.end_a_typed,
            end_b_nm=command.end_b_nm,
            end_b_typed=command.end_b_typed,
            to_a_nm=command.to_a_nm,
            to_a_typed=command.to_a_typed,
            to_b_nm=command.to_b_nm,
            to_b_typed=command.to_b_typed,
            note=command.note,
        ),
    )
