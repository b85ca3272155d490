"""Lasers put on the job's list, what befell them, their peg tests, and setups that name them."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.grade import SetUpLaser
from crewapp.commands.lasers import AddInstrument, LogInstrumentEvent, LogPegTest
from crewapp.handlers.lasers import (
    InstrumentTakenError,
    PegDistancesError,
    UnknownInstrumentError,
)
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from tests.crewapp.conftest import DAY

FT_NM = 304_800_000
READINGS: dict[str, Any] = dict.fromkeys(
    ("mid_a_nm", "mid_b_nm", "end_a_nm", "end_b_nm"), 5 * FT_NM
)


def body(changed: Any) -> Any:
    """The body that a command wrote."""
    return changed.entries[-1].body


def test_laser_is_read_to_what_is_usual_in_the_jobs_units(job: OpenJob) -> None:
    """A hundredth of a foot where nobody says; days ago become a day."""
    laser = body(
        do(job, AddInstrument(instrument_id=" laser 1 ", what="pipe_laser", calibrated_days_ago=0))
    )

    assert (laser.instrument_id, laser.rod_step_nm, laser.calibrated_on) == (
        "laser 1",
        FT_NM // 100,
        DAY,
    )


def test_name_of_another_laser_is_refused(job: OpenJob) -> None:
    """Two lasers of one name would share their peg tests."""
    do(job, AddInstrument(instrument_id="laser 1", what="pipe_laser"))
    before = job.book.count()

    with pytest.raises(InstrumentTakenError, match="another instrument of this job"):
        do(job, AddInstrument(instrument_id="laser 1", what="digital_level"))
    assert job.book.count() == before


def test_unknown_laser_is_refused_with_those_known(job: OpenJob) -> None:
    """Events, peg tests and setups name a laser of the job."""
    do(job, AddInstrument(instrument_id="laser 1", what="pipe_laser"))
    before = job.book.count()
    for write in (
        lambda: do(job, LogInstrumentEvent(instrument_id="x", what="dropped")),
        lambda: do(job, LogPegTest(instrument_id="x", to_a_nm=2, to_b_nm=1, **READINGS)),
        lambda: do(job, SetUpLaser(on_point="BM1", backsight_nm=FT_NM, instrument_id="x")),
    ):
        with pytest.raises(UnknownInstrumentError, match="Its instruments are laser 1"):
            write()
    assert job.book.count() == before


def test_peg_test_with_one_distance_twice_is_refused(job: OpenJob) -> None:
    """As far from A as from B, the second setup shows nothing."""
    do(job, AddInstrument(instrument_id="laser 1", what="pipe_laser"))

    with pytest.raises(PegDistancesError, match="close to one of the pegs"):
        do(job, LogPegTest(instrument_id="laser 1", to_a_nm=9, to_b_nm=9, **READINGS))


def test_setup_takes_the_only_laser_and_none_of_two(job: OpenJob) -> None:
    """Without a laser nothing is named; with one it is taken; of two it has to be said."""
    named = []
    for number in range(3):
        setup = body(do(job, SetUpLaser(on_point="BM1", backsight_nm=FT_NM)))
        named.append(setup.instrument_id)
        do(job, AddInstrument(instrument_id=f"laser {number}", what="pipe_laser"))

    assert named == ["", "laser 0", ""]
