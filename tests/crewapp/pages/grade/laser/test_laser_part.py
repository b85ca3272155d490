"""The laser and its peg test by real touches: added, dropped, tested, proven."""

from __future__ import annotations

from typing import Any

from crewapp.commands.grade import ReleaseHold
from crewapp.commands.lasers import AddInstrument, LogInstrumentEvent, LogPegTest
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.kind_names import INSTRUMENT, INSTRUMENT_EVENT, PEG_TEST, SETUP
from tests.crewapp.pages.grade_driver import (
    FT_NM,
    HUNDREDTH_NM,
    Begin,
    GradeDriver,
    set_up_level,
    shoot,
)

WANTED = "Laser not proven: peg test wanted"
FIGURES = ("965", "423", "1078", "542", "294", "6")
"""P2 of fixtures/levels/two_peg.json: the line of sight falls 1 in 4800, the limit is 1 in 8000."""


def have_laser(job: OpenJob) -> None:
    """Put one laser on the job's list."""
    do(job, AddInstrument(instrument_id="laser 1", what="rotating_laser"))


def have_two(job: OpenJob) -> None:
    """Put two on it."""
    have_laser(job)
    do(job, AddInstrument(instrument_id="pipe laser", what="pipe_laser"))


def pass_test(job: OpenJob) -> None:
    """Test the first: no error at all."""
    readings: dict[str, Any] = dict.fromkeys(
        ("mid_a_nm", "mid_b_nm", "end_a_nm", "end_b_nm"), 5 * FT_NM
    )
    do(job, LogPegTest(instrument_id="laser 1", to_a_nm=200 * FT_NM, to_b_nm=FT_NM, **readings))


def test_laser_is_added_from_the_setup(begin: Begin) -> None:
    """Sort, then a name by a tap: it is on the job, and wants a peg test."""
    driver = begin()
    for words in ("Set up the laser", "Add the laser", "rotating laser", "laser 1", "Done"):
        driver.tap(words)
    driver.tap("Ink it")

    (laser,) = driver.bodies(INSTRUMENT)
    assert (laser.instrument_id, laser.what, laser.rod_step_nm) == (
        "laser 1",
        "rotating_laser",
        HUNDREDTH_NM,
    )
    assert driver.page.part_name() == "laser"
    assert driver.page.part.mark.text.startswith("peg test wanted")


def type_test(begin: Begin, figures: tuple[str, ...] = FIGURES) -> GradeDriver:
    """Open the peg test of the only laser and type its figures, one pad after the other."""
    driver = begin(have_laser)
    for words in ("Set up the laser", "its peg test", "Peg test", "1 on A"):
        driver.tap(words)
    for digits in figures:
        driver.key(digits)
    return driver


def test_peg_test_is_judged_as_its_figures_come_and_inked(begin: Begin) -> None:
    """Six pads follow each other; the verdict stands before it is inked, the entry has all."""
    driver = type_test(begin)
    part = driver.page.part

    assert part.mark.status == "out"
    assert part.mark.text == "falls 0.021 ft in 100 ft, 0.012 ft in 100 ft allowed"
    assert "reads 10.84 on A, 5.42 on B" in part.words.sentences[0]
    assert driver.bodies(PEG_TEST) == []
    driver.tap("Ink the peg test")
    (test,) = driver.bodies(PEG_TEST)
    assert (test.instrument_id, test.mid_a_nm, test.end_b_typed) == (
        "laser 1",
        965 * HUNDREDTH_NM,
        "5.42",
    )
    assert (test.to_a_nm, test.to_b_nm) == (294 * FT_NM, 6 * FT_NM)
    assert driver.page.part.mark.text.endswith("its peg test failed")


def test_half_a_peg_test_says_what_is_next_and_cannot_be_inked(begin: Begin) -> None:
    """After two readings the pegs' rise is known; the key that inks waits for the rest."""
    driver = type_test(begin, FIGURES[:2])
    driver.page.sheet.dispatch("on_leave")
    driver.settle()
    part = driver.page.part

    assert (part.mark.status, part.mark.text) == ("not measured", "2 of 6 figures")
    assert part.words.sentences[1] == "B stands 5.42 ft over A."
    assert part.main.disabled


def test_the_only_laser_is_taken_and_grade_says_that_it_wants_a_test(begin: Begin) -> None:
    """One laser on the job is named without a tap; unproven it is said on Grade and on Today."""
    driver = begin(have_laser, set_up_level)

    (setup,) = driver.bodies(SETUP)
    assert setup.instrument_id == "laser 1"
    assert (driver.page.part.proof.status, driver.page.part.proof.text) == ("check", WANTED)
    assert "laser 1: no peg test of it is written down" in driver.page.part.story.sentences
    pass_test(driver.job)
    driver.page.refresh()
    driver.settle()
    assert driver.page.part.proof.status == "ok"


def test_of_two_lasers_one_is_chosen(begin: Begin) -> None:
    """With two on the job the backsight waits for a tap on one."""
    driver = begin(have_two)
    for words in ("Set up the laser", "rod stands on", "BM1  100.00"):
        driver.tap(words)
    assert driver.page.part.main.disabled
    for words in ("instrument", "pipe laser", "Read the backsight"):
        driver.tap(words)
    driver.key("465")

    assert driver.bodies(SETUP)[0].instrument_id == "pipe laser"


def test_dropped_laser_stops_what_was_released_on_its_shots(begin: Begin) -> None:
    """A tested laser is dropped by two taps; shots still go in, and their release is a STOP."""
    driver = begin(have_laser, pass_test)
    for words in (
        "Set up the laser",
        "its peg test",
        "Dropped, serviced",
        "It was dropped",
        "Ink it",
    ):
        driver.tap(words)
    set_up_level(driver.job)
    shoot(driver.job, 0, "3.00")
    do(driver.job, ReleaseHold(collector_id="C1", from_nm=0, to_nm=25 * FT_NM, released_by="Ann"))

    (event,) = driver.bodies(INSTRUMENT_EVENT)
    assert (event.instrument_id, event.what) == ("laser 1", "dropped")
    found = [one.check for one in driver.job.board.findings()]
    assert found.count("laser_not_proven") == 1


def test_cover_names_the_laser_before_leave_is_given(begin: Begin) -> None:
    """What is missing under a range names the laser that no test proves."""
    driver = begin(have_laser, set_up_level, lambda job: shoot(job, 0, "3.00"))
    driver.tap("Cover")

    assert "laser 1 not proven: peg test wanted" in driver.page.cover().missing


def test_list_of_a_laser_has_its_tests_and_what_befell_it(begin: Begin) -> None:
    """Newest first, each with its day, then what its maker says of it."""
    driver = begin(
        have_laser,
        pass_test,
        lambda job: do(
            job, LogInstrumentEvent(instrument_id="laser 1", what="serviced", note="new bubble")
        ),
    )
    for words in ("Set up the laser", "its peg test"):
        driver.tap(words)

    told = driver.page.view.lasers.lasers[0].told
    assert told[0].title.startswith("It was serviced")
    assert told[0].detail == "new bubble"
    assert told[1].detail == "rises 0.000 ft in 100 ft, 0.012 ft in 100 ft allowed"
    assert told[-1].title == "A peg test may show 0.012 ft in 100 ft, and holds 30 days."
