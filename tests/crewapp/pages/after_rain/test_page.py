"""Rain, looks, ring tests, ties and tests of sand by touch, read back from the book."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.input.moments import instant_of
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_driver import DayDriver, hands, open_day
from tests.crewapp.planned_book import ZONE

if TYPE_CHECKING:
    from tests.uidriver import UI

IN, FT = 25_400_000, 304_800_000
RING: dict[str, Any] = {
    "spot": "over a sand slit",
    "when": "after",
    "method": "single_ring",
    "inner": {"value": 12 * IN, "text": "12"},
}


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the app; the clock stands at nine."""
    yield from hands(ui, tmp_path)


def test_a_rain_of_last_night(driver: DayDriver) -> None:
    """Typed at nine, 2230 is yesterday's: 0.75 in from then until 0540 this morning."""
    driver.on("day", part="written").tap("After the rain")
    driver.tap("Rain")
    driver.key("0.75")
    driver.tap("Number pad")
    driver.key("0540")
    driver.tap("Number pad")
    driver.key("2230")
    driver.tap("Ink it")

    rain = driver.body("rain")
    assert (rain.depth_nm, rain.depth_typed) == (19_050_000, "0.75")
    assert rain.stopped_ms == instant_of(DAY, 5 * 60 + 40, ZONE)
    assert rain.began_ms == instant_of("2026-05-10", 22 * 60 + 30, ZONE)


def test_a_rain_that_nobody_saw_begin(driver: DayDriver) -> None:
    """Not known is kept as not known."""
    driver.on("after", part="home").tap("Rain")
    driver.key("1")
    driver.taps("Just now", "Not known", "Ink it")

    assert driver.body("rain").began_ms is None


def test_a_look_takes_one_tap(driver: DayDriver) -> None:
    """On the only surface the three keys are there at once; the tap's own time is kept."""
    driver.on("after", part="home").taps("How it looks", "Water stands")
    seen = driver.body("surface_seen")

    assert (seen.surface_id, seen.condition) == ("G7", "standing_water")
    assert seen.seen_ms == driver.clock.at_ms - 1000  # the hand lets a second go by after a tap


def test_the_time_of_a_look_can_be_changed(driver: DayDriver) -> None:
    """Seen at seven, typed at nine; the next look is of now again, and undo strikes it."""
    driver.on("after", part="home").taps("How it looks", "Now")
    driver.key("0700")
    driver.tap("No water stands")
    assert driver.body("surface_seen").seen_ms == instant_of(DAY, 7 * 60, ZONE)

    assert "Now" in driver.words()
    driver.shell.undo()
    driver.settle()
    assert driver.entries("surface_seen") == []


def at_the_ring(driver: DayDriver) -> DayDriver:
    """Bring the clock of a ring test to the front, all about the ring answered."""
    driver.on("after", part="home")
    driver.page.turn_to("ring", answers={"ring": RING})
    driver.settle()
    return driver


def read(driver: DayDriver, level: str, minutes: int = 0) -> None:
    """Let time go by and read a level at the moment of the tap."""
    driver.clock.pass_seconds(minutes * 60)
    driver.page.refresh()
    driver.settle()
    driver.tap("Read now")
    driver.key(level)


def test_a_ring_is_read_at_the_tap(driver: DayDriver) -> None:
    """Three readings, one refill; the seconds are those of the taps, not of the typing."""
    at_the_ring(driver)
    read(driver, "4")
    driver.page.tap_reading(driver.page.part.now_ms() + 300_000)
    driver.clock.pass_seconds(360)
    driver.settle()
    driver.key("3")
    driver.tap("Filled up")
    driver.key("4")
    read(driver, "3", minutes=4)
    driver.tap("Ink the test")

    test = driver.body("infiltration_test")
    assert [(one.level_nm, one.refilled_to_nm) for one in test.readings] == [
        (4 * IN, None),
        (3 * IN, 4 * IN),
        (3 * IN, None),
    ]
    assert [round(one.after_s / 10) for one in test.readings] == [0, 30, 60]
    assert (test.when, test.method, test.inner_nm) == ("after", "single_ring", 12 * IN)


def test_a_running_test_survives_a_kill(ui: UI, tmp_path: Path) -> None:
    """The first reading stands and the clock has run on, though the tablet died."""
    driver = open_day(ui, tmp_path)
    read(at_the_ring(driver), "4")
    driver.close()
    driver = open_day(ui, tmp_path).on("after", part="ring")
    read(driver, "3", minutes=10)
    driver.tap("Ink the test")
    readings = driver.body("infiltration_test").readings
    driver.close()

    assert [round(one.after_s / 10) for one in readings] == [0, 60]


def test_a_slip_in_the_ring_is_dropped(driver: DayDriver) -> None:
    """A reading that went wrong is taken back; with the first one the clock stops."""
    at_the_ring(driver)
    read(driver, "4")
    driver.tap("Last one wrong")

    assert driver.page.ring_readings == []
    assert driver.page.ring_began_ms is None
    assert driver.entries("infiltration_test") == []


def test_an_end_is_tied(driver: DayDriver) -> None:
    """The first point is made on the way, then the distance from it is typed."""
    driver.on("built").tap("Ties")
    driver.taps("C1, outlet", "hydrant", "Done", "Ink it", "C1, outlet", "PP1: hydrant")
    driver.key("41.25")
    driver.tap("Ink it")

    tie = driver.body("tie")
    assert (tie.tied, tie.collector_id, tie.point_id) == ("collector_outlet", "C1", "PP1")
    assert (tie.distance_nm, tie.distance_typed) == (FT * 165 // 4, "41.25")
    assert "41.25 ft from PP1" in driver.words()


def test_a_box_is_weighed(driver: DayDriver) -> None:
    """From Loads: the sand, the box, the weight, how it feels."""
    driver.on("loads").taps("Test the sand", "Weigh a box", "sand", "1.00 ft\u00b3")
    driver.key("100")
    driver.taps("dry", "Ink it")

    box = driver.body("box_weighing")
    assert (box.material_id, box.mass_ug, box.mass_typed) == ("sand", 45_359_237_000, "100 lb")
    assert any("100.0 lb a ft" in words for words in driver.words())


def test_a_sieve_sheet_is_typed(driver: DayDriver) -> None:
    """Sieve by sieve, the pads follow each other; the sum stands over them."""
    typed = {2000: 4000, 1000: 34_000, 500: 152_000, 250: 208_500, 150: 78_000}
    kept = {f"um{um}": {"value": mg, "text": ""} for um, mg in typed.items()}
    driver.on("after", part="sand")
    driver.page.keep_draft(answers={"sieve": kept})
    driver.taps("Sieve sheet", "sand")
    for grams in ("0", "20", "3.5"):
        driver.key(grams)
    assert "500.0 g held in all" in driver.words()
    driver.tap("Ink it")

    held = [(one.opening_um, one.retained_mg) for one in driver.body("sieve_test").weights]
    assert held[:2] == [(3350, 0), (2000, 4000)]
    assert held[-1] == (0, 3500)


def test_a_sieve_sheet_comes_from_the_inbox(driver: DayDriver, tmp_path: Path) -> None:
    """A CSV in the inbox becomes a sheet of the sand that is tapped; a bad one says why."""
    inbox = tmp_path / "home" / "inbox"
    inbox.mkdir(parents=True, exist_ok=True)
    (inbox / "a.csv").write_text("sieve mm,retained g\n2,heavy\n", encoding="utf-8")
    (inbox / "b.csv").write_text("sieve mm,retained g\n1,10\n0.5,50\npan,40\n", encoding="utf-8")
    driver.on("after", part="sand").taps("Sheet from a file", "a.csv")
    assert driver.entries("sieve_test") == []

    driver.taps("Seen", "b.csv")
    assert driver.body("sieve_test").laboratory == "b.csv"


def test_sand_is_topped_up_and_a_pipe_flushed(driver: DayDriver) -> None:
    """Two lines get sand by volume; the collector is flushed for its silt."""
    driver.on("after", part="home").taps("Sand topped up", "sand", "By volume")
    driver.key("1.5")
    driver.taps("Lines (none: all over)", "S01", "S02", "Done", "Ink it")
    driver.taps("Repair or flush", "Flushed", "Low side", "Trouble", "silt in it", "Done")
    driver.tap("Ink it")

    topped, repair = driver.body("sand_top_up"), driver.body("repair")
    assert (topped.line_ids, topped.volume_pl) == (("S01", "S02"), 42_475_269_888_000)
    assert (repair.done, repair.collector_id, repair.why) == ("flushed", "C1", "silt in it")
