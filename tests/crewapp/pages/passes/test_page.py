"""A pass from its lines to its last probe, by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.day import CloseDay
from crewapp.handlers.entries import write
from models.entries.bodies.job import Person
from tests.crewapp.pages.slit_hand import FOOT_NM, INCH_NM, SlitHand, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitHand]:
    """The Pass page of a job with a field and a green."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        yield opened


def test_chip_of_length_cuts_the_lines_proposed(hand: SlitHand) -> None:
    """One tap: both legs' lines, 4 ft apart, with the length tapped."""
    hand.touch("39.5")

    (cut,) = hand.written("pass")
    assert (cut.surface_id, cut.line_ids, cut.machine_id) == ("F2", ("S01", "S04"), "twin")
    assert (cut.length_nm, cut.length_typed) == (79 * FOOT_NM // 2, "39.5")
    assert hand.taps == 1


def test_other_length_takes_five_taps(hand: SlitHand) -> None:
    """Cut, three digits, Enter."""
    hand.touch("Cut: type the length")
    hand.keys("3", "8", ".")
    hand.keys("5", "enter")

    (cut,) = hand.written("pass")
    assert cut.length_typed == "38.5"
    hand.taps -= 1  # the point; three figures alone are five taps
    assert hand.taps == 5


def test_chips_of_length_are_all_alike(hand: SlitHand) -> None:
    """No length is preselected or stands out: it has to be measured."""
    chips = hand.page.part.chips.children

    assert len({(chip.kind, chip.cap_mm, chip.note) for chip in chips}) == 1
    assert {"39.0", "40.0", "41.0"} <= {chip.text for chip in chips}


def test_length_out_by_ten_is_asked_about(hand: SlitHand) -> None:
    """The likely figure is offered, and nothing is inked before an answer."""
    hand.touch("Cut: type the length")
    hand.keys("4", "0", "0", "enter")
    assert hand.written("pass") == []

    hand.keys("?0")

    (cut,) = hand.written("pass")
    assert cut.length_nm == 40 * FOOT_NM


def test_odd_length_can_be_kept(hand: SlitHand) -> None:
    """A figure that is odd and true stays as typed."""
    hand.touch("Cut: type the length")
    hand.keys("1", "2", "enter", "?keep")

    assert [cut.length_typed for cut in hand.written("pass")] == ["12"]


def test_other_lines_are_cut_when_picked(hand: SlitHand) -> None:
    """The lines of the pass are the ones ticked in the list."""
    hand.touch("Other lines")
    hand.touch("S01")
    hand.touch("S02")
    hand.touch("Use S02, S04")
    hand.touch("40.0")

    assert hand.written("pass")[0].line_ids == ("S02", "S04")


def test_shift_goes_with_the_pass(hand: SlitHand) -> None:
    """A shift measured before the cut is inked with it, once."""
    hand.touch("More", again=-1)
    hand.touch("Shift measured")
    hand.keys("1", "6", "enter")
    hand.touch("Back")
    hand.cut()
    hand.page.next_pass()
    hand.settle()
    hand.cut()

    assert [cut.shift_nm for cut in hand.written("pass")] == [16 * INCH_NM, None]


def test_operator_goes_with_the_pass(hand: SlitHand) -> None:
    """Who drives is tapped, or written, before the cut, and inked with that pass alone."""
    hand.desk.run(
        lambda: write(hand.desk.job(), Person(person_id="Ash", name="Ash Invented")),
        lambda changed: None,
        lambda why: None,
    )
    hand.settle()
    hand.page.refresh()
    hand.settle()
    hand.touch("More", again=-1)
    hand.touch("Operator")
    hand.touch("Ash")
    hand.touch("Back")
    hand.cut()
    hand.page.next_pass()
    hand.settle()
    hand.cut()
    hand.page.next_pass()
    hand.settle()
    hand.touch("More", again=-1)
    hand.touch("Operator")
    hand.touch("Write it")
    hand.page.part.text.text = "the other one"
    hand.settle()
    hand.touch("Done")
    hand.touch("Back")
    hand.cut()

    assert [cut.operator for cut in hand.written("pass")] == ["Ash", "", "the other one"]


def test_green_lifts_its_strip_before_the_cut(hand: SlitHand) -> None:
    """On a green the strip comes first; then the length is typed."""
    hand.green()
    hand.touch("Turf lifted")
    hand.touch("Cut: type the length")
    hand.keys("3", "0", "enter")

    (turf,), (cut,) = hand.written("turf_strip"), hand.written("pass")
    assert (turf.step, turf.line_ids) == ("lifted", cut.line_ids)
    assert cut.surface_id == "G7"


def test_pass_done_leads_to_the_next_lines(hand: SlitHand) -> None:
    """One tap ends the pass; the lines beside it come next."""
    hand.cut()
    hand.touch("Steps")
    hand.touch("Pass done")

    assert hand.page.told.picked == ("S02", "S05")
    assert hand.page.part_name() == "cut"


def test_refused_pass_keeps_what_was_typed(hand: SlitHand) -> None:
    """A closed day refuses the pass; the banner says so and the figure waits on the pad."""
    hand.shell.do(CloseDay(day="2026-05-11"), lambda _: None)
    hand.settle()
    hand.seen()
    hand.touch("Cut: type the length")
    hand.keys("3", "8", "enter")

    assert hand.written("pass") == []
    assert "is closed" in hand.banner
    hand.seen()
    hand.touch("Cut: type the length")
    assert hand.page.sheet.pad.keypad.typed == "38"
