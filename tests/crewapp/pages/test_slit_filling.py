"""Sand, pipe, turf and water of a pass, by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.loads import TakeDelivery
from models.units import PL_PER, VolumeUnit
from tests.crewapp.pages.slit_hand import FOOT_NM, SlitHand, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI

YARD_PL = PL_PER[VolumeUnit.YD3]


@pytest.fixture
def hand(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitHand]:
    """A pass of the field just cut."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        opened.cut()
        opened.taps = 0
        yield opened


def lay_piped(hand: SlitHand) -> None:
    """Cut piped slits of the field, a coil of pipe on site."""
    hand.shell.do(
        TakeDelivery(material_id="pipe", length_nm=500 * FOOT_NM, coil_id="coil 1", ticket="1"),
        lambda _: None,
    )
    hand.page.next_pass()
    hand.page.choose(use="piped_slit")
    hand.settle()
    hand.seen()
    hand.touch("Cut: type the length")
    hand.keys("8", "enter")
    hand.seen()
    hand.open_part("pipe")


def test_hopper_takes_one_tap(hand: SlitHand) -> None:
    """A full hopper, as dry as it felt, goes into the pass in hand."""
    hand.open_part("sand")
    hand.touch("Full, dry")

    (sand,) = hand.written("sand_placed")
    assert (sand.pass_id, sand.material_id) == ("F2-01", "sand")
    assert (sand.volume_pl, sand.moisture, sand.hoppers_tenths) == (YARD_PL // 2, "dry", 10)
    assert hand.taps == 1


def test_half_hopper_and_moisture_are_on_the_key(hand: SlitHand) -> None:
    """The key tapped says how much and how it felt; nothing is taken for granted."""
    hand.open_part("sand")
    hand.touch("Half, wet")

    (sand,) = hand.written("sand_placed")
    assert (sand.volume_pl, sand.moisture) == (YARD_PL // 4, "wet")


def test_sand_typed_ends_with_how_it_feels(hand: SlitHand) -> None:
    """The last tap of a typed amount is how the sand feels."""
    hand.open_part("sand")
    hand.touch("By volume")
    hand.keys("0", ".", "2", "=damp")

    (sand,) = hand.written("sand_placed")
    assert (sand.volume_pl, sand.amount_typed, sand.moisture) == (YARD_PL // 5, "0.2 yd3", "damp")


def test_sand_shows_its_share_of_the_cut(hand: SlitHand) -> None:
    """Two legs of 40 ft, 1 in by 9 in, hold 5 ft3: 0.19 yd3 is in full, by hand 1.03 of it."""
    hand.open_part("sand")
    hand.touch("By volume")
    hand.keys("0", ".", "1", "9", "=dry")
    hand.seen()

    assert hand.page.card.sand.text == "1.02 of the cut"
    assert hand.page.part.mark.status == "ok"


def test_sand_may_go_into_the_whole_surface(hand: SlitHand) -> None:
    """A hopper that serves several passes is written for the surface."""
    hand.open_part("sand")
    hand.touch("Into")
    hand.touch("Full, dry")

    assert hand.written("sand_placed")[0].pass_id == ""


def test_hopper_unknown_is_asked_for_once(hand: SlitHand) -> None:
    """A sand without a hopper volume has one key: what does it hold; then loads are taps."""
    hand.open_part("sand")
    hand.touch("Sand")
    hand.touch("What does a full hopper hold?")
    hand.keys("0", ".", "6", "enter")
    hand.seen()
    hand.touch("Full, dry")

    (sand,) = hand.written("sand_placed")
    assert (sand.material_id, sand.volume_pl) == ("loose sand", 6 * YARD_PL // 10)


def test_pipe_is_laid_from_a_coil(hand: SlitHand) -> None:
    """Joined, capped, and its length: the coil in use and the first bare line are proposed."""
    lay_piped(hand)
    hand.taps = 0
    hand.touch("Joined")
    hand.touch("End cap")
    hand.touch("Length of pipe")
    hand.keys("9", "enter")

    (pipe,) = hand.written("pipe_laid")
    assert (pipe.line_id, pipe.coil_id, pipe.length_nm) == ("P01", "coil 1", 9 * FOOT_NM)
    assert (pipe.connected, pipe.end_capped) == (True, True)
    assert hand.taps == 5


def test_pipe_goes_on_to_the_next_line(hand: SlitHand) -> None:
    """Once a line has its pipe the next bare one is proposed; what is left on the coil falls."""
    lay_piped(hand)
    hand.touch("Length of pipe")
    hand.keys("9", "enter")
    hand.seen()

    assert hand.page.part.line_id == "P02"
    assert hand.page.part.coil.text == "491.0 ft left of 500.0 ft"


def test_ends_are_told_for_each_line(hand: SlitHand) -> None:
    """What was joined and capped on one line is not taken as read for the next; then comes sand."""
    lay_piped(hand)
    for key in ("Joined", "End cap"):
        hand.touch(key)
    for _ in range(2):
        hand.touch("Length of pipe")
        hand.keys("9", "enter")
        hand.seen()

    ends = [(pipe.connected, pipe.end_capped) for pipe in hand.written("pipe_laid")]
    assert ends == [(True, True), (False, False)]
    hand.touch("Sand next")
    assert hand.page.part_name() == "sand"


def test_turf_goes_back_in_order(hand: SlitHand) -> None:
    """Lifted, put back, rolled: only the next step can be tapped."""
    hand.green()
    hand.touch("Turf lifted")
    hand.touch("Cut: type the length")
    hand.keys("3", "0", "enter")
    hand.seen()
    hand.open_part("finish")
    hand.touch("Turf put back", again=-1)
    hand.seen()
    hand.touch("Turf rolled", again=-1)

    steps = [turf.step for turf in hand.written("turf_strip")]
    assert steps == ["lifted", "put_back", "rolled"]


def test_watered_in_takes_one_tap(hand: SlitHand) -> None:
    """The sand of the pass is watered in."""
    hand.open_part("finish")
    hand.touch("Watered in", again=-1)

    assert [water.pass_id for water in hand.written("watered_in")] == ["F2-01"]
