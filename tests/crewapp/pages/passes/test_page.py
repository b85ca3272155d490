"""A pass from its lines to its last probe, by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay
from crewapp.handlers.entries import write
from models.entries.bodies.job import Person
from tests.crewapp.pages.slit_driver import FOOT_NM, INCH_NM, SlitDriver, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitDriver]:
    """The Pass page of a job with a field and a green."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        yield opened


def test_chip_of_length_cuts_the_lines_proposed(driver: SlitDriver) -> None:
    """One tap: both legs' lines, 4 ft apart, with the length tapped."""
    driver.touch("39.5")

    (cut,) = driver.written("pass")
    assert (cut.surface_id, cut.line_ids, cut.machine_id) == ("F2", ("S01", "S04"), "twin")
    assert (cut.length_nm, cut.length_typed) == (79 * FOOT_NM // 2, "39.5")
    assert driver.taps == 1


def test_other_length_takes_five_taps(driver: SlitDriver) -> None:
    """Cut, three digits, Enter."""
    driver.touch("Cut: type the length")
    driver.keys("3", "9", ".")
    driver.keys("2", "enter")

    (cut,) = driver.written("pass")
    assert cut.length_typed == "39.2"
    driver.taps -= 1  # the point; three figures alone are five taps
    assert driver.taps == 5


def test_chips_of_length_are_all_alike(driver: SlitDriver) -> None:
    """No length is preselected or stands out: it has to be measured."""
    chips = driver.page.part.chips.children

    assert len({(chip.kind, chip.cap_mm, chip.note) for chip in chips}) == 1
    assert {"39.0", "40.0", "41.0"} <= {chip.text for chip in chips}


def test_length_out_by_ten_is_asked_about(driver: SlitDriver) -> None:
    """The likely figure is offered, and nothing is inked before an answer."""
    driver.touch("Cut: type the length")
    driver.keys("4", "0", "0", "enter")
    assert driver.written("pass") == []

    driver.keys("?0")

    (cut,) = driver.written("pass")
    assert cut.length_nm == 40 * FOOT_NM


def test_odd_length_can_be_kept(driver: SlitDriver) -> None:
    """A figure that is odd and true stays as typed: the drive stopped there."""
    driver.touch("Cut: type the length")
    driver.keys("1", "2", "enter", "?keep")
    assert driver.written("pass") == []
    driver.touch("Stopped here")

    assert [cut.length_typed for cut in driver.written("pass")] == ["12"]
    assert [one.length_nm for one in driver.written("pass")[0].pieces] == [12 * FOOT_NM] * 2


def test_a_drive_that_stopped_is_taken_up_where_it_stopped(driver: SlitDriver) -> None:
    """What is left of both lines is proposed next, and logged from there by one tap."""
    driver.touch("Cut: type the length")
    driver.keys("2", "5", "enter", "?keep")
    driver.touch("Stopped here")
    driver.page.next_pass()
    driver.settle()

    assert driver.page.view.picked == ("S01", "S04")
    assert driver.page.view.planned_nm == 15 * FOOT_NM
    driver.touch("15.0")
    pieces = driver.written("pass")[-1].pieces
    assert [(one.from_nm, one.to_nm) for one in pieces] == [(25 * FOOT_NM, 40 * FOOT_NM)] * 2


def test_one_piece_can_be_typed_for_itself(driver: SlitDriver) -> None:
    """A leg that came up early: its piece as typed, the other by the length driven."""
    driver.touch("Cut: type the length")
    driver.keys("3", "8", "enter")
    driver.touch("S04")
    driver.keys("3", "0", "enter")
    driver.touch("Stopped here")

    (cut,) = driver.written("pass")
    assert [(one.line_id, one.length_nm // FOOT_NM, one.by) for one in cut.pieces] == [
        ("S01", 38, "drive"),
        ("S04", 30, "measured"),
    ]


def test_other_lines_are_cut_when_picked(driver: SlitDriver) -> None:
    """The lines of the pass are the ones ticked in the list."""
    driver.touch("Other lines")
    driver.touch("S01")
    driver.touch("S02")
    driver.touch("Use S02, S04")
    driver.touch("40.0")

    assert driver.written("pass")[0].line_ids == ("S02", "S04")


def test_shift_goes_with_the_pass(driver: SlitDriver) -> None:
    """A shift measured before the cut is inked with it, once."""
    driver.touch("More", again=-1)
    driver.touch("Shift measured")
    driver.keys("1", "6", "enter")
    driver.touch("Back")
    driver.cut()
    driver.page.next_pass()
    driver.settle()
    driver.cut()

    assert [cut.shift_nm for cut in driver.written("pass")] == [16 * INCH_NM, None]


def test_operator_goes_with_the_pass(driver: SlitDriver) -> None:
    """Who drives is tapped, or written, before the cut, and inked with that pass alone."""
    driver.worker.run(
        lambda: write(driver.worker.job(), Person(person_id="Ash", name="Ash Invented")),
        lambda changed: None,
        lambda why: None,
    )
    driver.settle()
    driver.page.refresh()
    driver.settle()
    driver.touch("More", again=-1)
    driver.touch("Operator")
    driver.touch("Ash")
    driver.touch("Back")
    driver.cut()
    driver.page.next_pass()
    driver.settle()
    driver.cut()
    driver.page.next_pass()
    driver.settle()
    driver.touch("More", again=-1)
    driver.touch("Operator")
    driver.touch("Write it")
    driver.page.part.text.text = "the other one"
    driver.settle()
    driver.touch("Done")
    driver.touch("Back")
    driver.cut()

    assert [cut.operator for cut in driver.written("pass")] == ["Ash", "", "the other one"]


def test_green_lifts_its_strip_before_the_cut(driver: SlitDriver) -> None:
    """On a green the strip comes first; then the length is typed."""
    driver.green()
    driver.touch("Turf lifted")
    driver.touch("Cut: type the length")
    driver.keys("3", "0", "enter")

    (turf,), (cut,) = driver.written("turf_strip"), driver.written("pass")
    assert (turf.step, turf.line_ids) == ("lifted", cut.line_ids)
    assert cut.surface_id == "G7"


def test_pass_done_leads_to_the_next_lines(driver: SlitDriver) -> None:
    """One tap ends the pass; the lines beside it come next."""
    driver.cut()
    driver.touch("Steps")
    driver.touch("Pass done")

    assert driver.page.view.picked == ("S02", "S05")
    assert driver.page.part_name() == "cut"


def test_refused_pass_keeps_what_was_typed(driver: SlitDriver) -> None:
    """A closed day refuses the pass; the banner says so and the figure waits on the pad."""
    driver.shell.do(CloseDay(day="2026-05-11"), lambda _: None)
    driver.settle()
    driver.seen()
    driver.touch("Cut: type the length")
    driver.keys("3", "9", "enter")

    assert driver.written("pass") == []
    assert "is closed" in driver.banner
    driver.seen()
    driver.touch("Cut: type the length")
    assert driver.page.sheet.pad.keypad.typed == "39"


def test_blade_that_was_set_is_noted_by_one_tap(driver: SlitDriver) -> None:
    """Under the machine stand its blades, all and each; the tile says what was done last."""
    driver.touch("More", again=-1)
    driver.touch("Machine")
    driver.touch("Depth set", again=0)

    (done,) = driver.written("blade_set")
    assert (done.machine_id, done.leg, done.what) == ("twin", 0, "depth_set")
    assert driver.page.part.tiles["machine"].detail == "twin \u00b7 Depth set"


def test_thickness_of_the_sod_goes_with_the_strip(driver: SlitDriver) -> None:
    """The first strip that goes back asks for it; the next ones of the day and surface do not."""
    driver.green()
    for figures in ("2", ""):
        driver.touch("Turf lifted")
        driver.touch("Cut: type the length")
        driver.keys("3", "0", "enter")
        driver.seen()
        driver.open_part("finish")
        driver.hit(driver.page.part.turf)
        if figures:
            driver.keys(figures, "enter")
        driver.page.next_pass()
        driver.settle()

    turf = driver.written("turf_strip")
    assert [(one.step, one.sod_nm) for one in turf if one.step == "put_back"] == [
        ("put_back", 2 * INCH_NM),
        ("put_back", None),
    ]


def test_sod_that_nobody_measured_holds_up_no_strip(driver: SlitDriver) -> None:
    """Back from the question, the next tap inks the strip without a thickness."""
    driver.green()
    driver.touch("Turf lifted")
    driver.touch("Cut: type the length")
    driver.keys("3", "0", "enter")
    driver.seen()
    driver.open_part("finish")
    driver.hit(driver.page.part.turf)
    driver.keys("clear")
    driver.hit(driver.page.part.turf)

    assert [one.sod_nm for one in driver.written("turf_strip")] == [None, None]
