"""What the crew writes of its lasers and levels: which there are, what befell them, peg tests."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from crewapp.handlers.entries import write
from crewapp.job.open_job import Changed, OpenJob
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
    known = job.state.all_names(INSTRUMENT)
    if instrument_id not in known:
        raise UnknownInstrumentError(
            instrument_id=instrument_id[:40], known=", ".join(known) or "none yet"
        )


def add_instrument(
    job: OpenJob,
    *,
    instrument_id: str,
    what: str,
    rod_step_nm: int = 0,
    calibrated_days_ago: int | None = None,
    **fields: Any,
) -> Changed:
    """Put a laser or level on the job's list; without a step its rod is read as is usual.

    Raises
    ------
    InstrumentTakenError
        If an instrument had the name before.
    """
    name = instrument_id.strip()
    if job.state.is_used(INSTRUMENT, name):
        raise InstrumentTakenError(instrument_id=name[:40])
    usual = US_STEP_NM if job.figures.is_us else METRIC_STEP_NM
    step = rod_step_nm or usual
    if calibrated_days_ago is not None:
        today = date.fromisoformat(job.clock.now().day)
        fields["calibrated_on"] = (today - timedelta(days=calibrated_days_ago)).isoformat()
    return write(job, "instrument", instrument_id=name, what=what, rod_step_nm=step, **fields)


def note_event(job: OpenJob, *, instrument_id: str, what: str, note: str = "") -> Changed:
    """Log that an instrument was dropped, serviced, calibrated, or what else befell it.

    Raises
    ------
    UnknownInstrumentError
        If the job has no such instrument.
    """
    need_instrument(job, instrument_id)
    return write(job, "instrument_event", instrument_id=instrument_id, what=what, note=note)


def log_peg_test(
    job: OpenJob, *, instrument_id: str, to_a_nm: int, to_b_nm: int, **readings: Any
) -> Changed:
    """Log a two-peg test: four readings and the two distances of the second setup.

    Raises
    ------
    UnknownInstrumentError
        If the job has no such instrument.
    PegDistancesError
        If both distances are the same.
    """
    need_instrument(job, instrument_id)
    if to_a_nm == to_b_nm:
        raise PegDistancesError()
    return write(
        job,
        "peg_test",
        instrument_id=instrument_id,
        to_a_nm=to_a_nm,
        to_b_nm=to_b_nm,
        **readings,
    )
