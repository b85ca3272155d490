"""Sand, pipe, turf and water of a pass, by real touches; the book is what counts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from crewapp.commands.loads import TakeDelivery
from models.units import PL_PER, VolumeUnit
from tests.crewapp.pages.slit_driver import FOOT_NM, SlitDriver, at_work

if TYPE_CHECKING:
    from tests.uidriver import UI

YARD_PL = PL_PER[VolumeUnit.YD3]


@pytest.fixture
def driver(ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[SlitDriver]:
    """A pass of the field just cut."""
    with at_work(ui, tmp_path, monkeypatch) as opened:
        opened.cut()
        opened.taps = 0
        yield opened


def lay_piped(driver: SlitDriver) -> None:
    """Cut piped slits of the field, a coil of pipe on site."""
    driver.shell.do(
        TakeDelivery(material_id="pipe", length_nm=500 * FOOT_NM, coil_id="coil 1", ticket="1"),
        lambda _: None,
    )
    driver.page.next_pass()
    driver.page.choose(use="piped_slit")
    driver.settle()
    driver.seen()
    driver.touch("Cut: type the length")
    driver.keys("8", "enter")
    driver.seen()
    driver.open_part("pipe")


def test_hopper_takes_one_tap(driver: SlitDriver) -> None:
    """A full hopper, as dry as it felt, goes into the pass in hand."""
    driver.open_part("sand")
    driver.touch("Full, dry")

    (sand,) = driver.written("sand_placed")
    assert (sand.pass_id, sand.material_id) == ("F2-01", "sand")
    assert (sand.volume_pl, sand.moisture, sand.hoppers_tenths) == (YARD_PL // 2, "dry", 10)
    assert driver.taps == 1


def test_half_hopper_and_moisture_are_on_the_key(driver: SlitDriver) -> None:
    """The key tapped says how much and how it felt; nothing is taken for granted."""
    driver.open_part("sand")
    driver.touch("Half, wet")

    (sand,) = driver.written("sand_placed")
    assert (sand.volume_pl, sand.moisture) == (YARD_PL // 4, "wet")


def test_sand_typed_ends_with_how_it_feels(driver: SlitDriver) -> None:
    """The last tap of a typed amount is how the sand feels."""
    driver.open_part("sand")
    driver.touch("By volume")
    driver.keys("0", ".", "2", "=damp")

    (sand,) = driver.written("sand_placed")
    assert (sand.volume_pl, sand.amount_typed, sand.moisture) == (YARD_PL // 5, "0.2 yd3", "damp")


def test_sand_shows_its_share_of_the_cut(driver: SlitDriver) -> None:
    """Two legs of 40 ft, 1 in by 9 in, hold 5 ft3: 0.19 yd3 is in full, by hand 1.03 of it."""
    driver.open_part("sand")
    driver.touch("By volume")
    driver.keys("0", ".", "1", "9", "=dry")
    driver.seen()

    assert driver.page.card.sand.text == "1.02 of the cut"
    assert driver.page.part.mark.status == "ok"


def test_sand_may_go_into_the_whole_surface(driver: SlitDriver) -> None:
    """A hopper that serves several passes is written for the surface."""
    driver.open_part("sand")
    driver.touch("Into")
    driver.touch("Full, dry")

    assert driver.written("sand_placed")[0].pass_id == ""


def test_hopper_unknown_is_asked_for_once(driver: SlitDriver) -> None:
    """A sand without a hopper volume has one key: what does it hold; then loads are taps."""
    driver.open_part("sand")
    driver.touch("Sand")
    driver.touch("What does a full hopper hold?")
    driver.keys("0", ".", "6", "enter")
    driver.seen()
    driver.touch("Full, dry")

    (sand,) = driver.written("sand_placed")
    assert (sand.material_id, sand.volume_pl) == ("loose sand", 6 * YARD_PL // 10)


def test_pipe_is_laid_from_a_coil(driver: SlitDriver) -> None:
    """Joined, capped, and its length: the coil in use and the first bare line are proposed."""
    lay_piped(driver)
    driver.taps = 0
    driver.touch("Joined")
    driver.touch("End cap")
    driver.touch("Length of pipe")
    driver.keys("9", "enter")

    (pipe,) = driver.written("pipe_laid")
    assert (pipe.line_id, pipe.coil_id, pipe.length_nm) == ("P01", "coil 1", 9 * FOOT_NM)
    assert (pipe.connected, pipe.end_capped) == (True, True)
    assert driver.taps == 5


def test_pipe_goes_on_to_the_next_line(driver: SlitDriver) -> None:
    """Once a line has its pipe the next bare one is proposed; what is left on the coil falls."""
    lay_piped(driver)
    driver.touch("Length of pipe")
    driver.keys("9", "enter")
    driver.seen()

    assert driver.page.part.line_id == "P02"
    assert driver.page.part.coil.text == "491.0 ft left of 500.0 ft"


def test_ends_are_told_for_each_line(driver: SlitDriver) -> None:
    """What was joined and capped on one line is not taken as read for the next; then comes sand."""
    lay_piped(driver)
    for key in ("Joined", "End cap"):
        driver.touch(key)
    for _ in range(2):
        driver.touch("Length of pipe")
        driver.keys("9", "enter")
        driver.seen()

    ends = [(pipe.connected, pipe.end_capped) for pipe in driver.written("pipe_laid")]
    assert ends == [(True, True), (False, False)]
    driver.touch("Sand next")
    assert driver.page.part_name() == "sand"


def test_turf_goes_back_in_order(driver: SlitDriver) -> None:
    """Lifted, put back, rolled: only the next step can be tapped."""
    driver.green()
    driver.touch("Turf lifted")
    driver.touch("Cut: type the length")
    driver.keys("3", "0", "enter")
    driver.seen()
    driver.open_part("finish")
    driver.touch("Turf put back", again=-1)
    driver.keys("2", "enter")  # how thick its sod is, once a day
    driver.seen()
    driver.touch("Turf rolled", again=-1)

    steps = [turf.step for turf in driver.written("turf_strip")]
    assert steps == ["lifted", "put_back", "rolled"]


def test_watered_in_takes_one_tap(driver: SlitDriver) -> None:
    """The sand of the pass is watered in."""
    driver.open_part("finish")
    driver.touch("Watered in", again=-1)

    assert [water.pass_id for water in driver.written("watered_in")] == ["F2-01"]
