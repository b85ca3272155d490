"""Rain, looks, ring tests, ties and tests of sand by touch, read back from the book."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.input.moments import instant_of
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_hand import DayHand, hands, open_day
from tests.crewapp.pages.frame_hand import ZONE

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
def hand(ui: UI, tmp_path: Path) -> Iterator[DayHand]:
    """A finger on the app; the clock stands at nine."""
    yield from hands(ui, tmp_path)


def test_a_rain_of_last_night(hand: DayHand) -> None:
    """Typed at nine, 2230 is yesterday's: 0.75 in from then until 0540 this morning."""
    hand.on("day", part="written").tap("After the rain")
    hand.tap("Rain")
    hand.key("0.75")
    hand.tap("Number pad")
    hand.key("0540")
    hand.tap("Number pad")
    hand.key("2230")
    hand.tap("Ink it")

    rain = hand.body("rain")
    assert (rain.depth_nm, rain.depth_typed) == (19_050_000, "0.75")
    assert rain.stopped_ms == instant_of(DAY, 5 * 60 + 40, ZONE)
    assert rain.began_ms == instant_of("2026-05-10", 22 * 60 + 30, ZONE)


def test_a_rain_that_nobody_saw_begin(hand: DayHand) -> None:
    """Not known is kept as not known."""
    hand.on("after", part="home").tap("Rain")
    hand.key("1")
    hand.taps("Just now", "Not known", "Ink it")

    assert hand.body("rain").began_ms is None


def test_a_look_takes_one_tap(hand: DayHand) -> None:
    """On the only surface the three keys are there at once; the tap's own time is kept."""
    hand.on("after", part="home").taps("How it looks", "Water stands")
    seen = hand.body("surface_seen")

    assert (seen.surface_id, seen.condition) == ("G7", "standing_water")
    assert seen.seen_ms == hand.clock.at_ms - 1000  # the hand lets a second go by after a tap


def test_the_time_of_a_look_can_be_changed(hand: DayHand) -> None:
    """Seen at seven, typed at nine; the next look is of now again, and undo strikes it."""
    hand.on("after", part="home").taps("How it looks", "Now")
    hand.key("0700")
    hand.tap("No water stands")
    assert hand.body("surface_seen").seen_ms == instant_of(DAY, 7 * 60, ZONE)

    assert "Now" in hand.words()
    hand.shell.undo()
    hand.settle()
    assert hand.entries("surface_seen") == []


def at_the_ring(hand: DayHand) -> DayHand:
    """Bring the clock of a ring test to the front, all about the ring answered."""
    hand.on("after", part="home")
    hand.page.turn_to("ring", answers={"ring": RING})
    hand.settle()
    return hand


def read(hand: DayHand, level: str, minutes: int = 0) -> None:
    """Let time go by and read a level at the moment of the tap."""
    hand.clock.pass_seconds(minutes * 60)
    hand.page.refresh()
    hand.settle()
    hand.tap("Read now")
    hand.key(level)


def test_a_ring_is_read_at_the_tap(hand: DayHand) -> None:
    """Three readings, one refill; the seconds are those of the taps, not of the typing."""
    at_the_ring(hand)
    read(hand, "4")
    hand.page.tap_reading(hand.page.part.now_ms() + 300_000)
    hand.clock.pass_seconds(360)
    hand.settle()
    hand.key("3")
    hand.tap("Filled up")
    hand.key("4")
    read(hand, "3", minutes=4)
    hand.tap("Ink the test")

    test = hand.body("infiltration_test")
    assert [(one.level_nm, one.refilled_to_nm) for one in test.readings] == [
        (4 * IN, None),
        (3 * IN, 4 * IN),
        (3 * IN, None),
    ]
    assert [round(one.after_s / 10) for one in test.readings] == [0, 30, 60]
    assert (test.when, test.method, test.inner_nm) == ("after", "single_ring", 12 * IN)


def test_a_running_test_survives_a_kill(ui: UI, tmp_path: Path) -> None:
    """The first reading stands and the clock has run on, though the tablet died."""
    hand = open_day(ui, tmp_path)
    read(at_the_ring(hand), "4")
    hand.close()
    hand = open_day(ui, tmp_path).on("after", part="ring")
    read(hand, "3", minutes=10)
    hand.tap("Ink the test")
    readings = hand.body("infiltration_test").readings
    hand.close()

    assert [round(one.after_s / 10) for one in readings] == [0, 60]


def test_a_slip_in_the_ring_is_dropped(hand: DayHand) -> None:
    """A reading that went wrong is taken back; with the first one the clock stops."""
    at_the_ring(hand)
    read(hand, "4")
    hand.tap("Last one wrong")

    assert hand.page.ring_readings == []
    assert hand.page.ring_began_ms is None
    assert hand.entries("infiltration_test") == []


def test_an_end_is_tied(hand: DayHand) -> None:
    """The first point is made on the way, then the distance from it is typed."""
    hand.on("built").tap("Ties")
    hand.taps("C1, outlet", "hydrant", "Done", "Ink it", "C1, outlet", "PP1: hydrant")
    hand.key("41.25")
    hand.tap("Ink it")

    tie = hand.body("tie")
    assert (tie.tied, tie.collector_id, tie.point_id) == ("collector_outlet", "C1", "PP1")
    assert (tie.distance_nm, tie.distance_typed) == (FT * 165 // 4, "41.25")
    assert "41.25 ft from PP1" in hand.words()


def test_a_box_is_weighed(hand: DayHand) -> None:
    """From Loads: the sand, the box, the weight, how it feels."""
    hand.on("loads").taps("Test the sand", "Weigh a box", "sand", "1.00 ft\u00b3")
    hand.key("100")
    hand.taps("dry", "Ink it")

    box = hand.body("box_weighing")
    assert (box.material_id, box.mass_ug, box.mass_typed) == ("sand", 45_359_237_000, "100 lb")
    assert any("100.0 lb a ft" in words for words in hand.words())


def test_a_sieve_sheet_is_typed(hand: DayHand) -> None:
    """Sieve by sieve, the pads follow each other; the sum stands over them."""
    typed = {2000: 4000, 1000: 34_000, 500: 152_000, 250: 208_500, 150: 78_000}
    kept = {f"um{um}": {"value": mg, "text": ""} for um, mg in typed.items()}
    hand.on("after", part="sand")
    hand.page.keep_draft(answers={"sieve": kept})
    hand.taps("Sieve sheet", "sand")
    for grams in ("0", "20", "3.5"):
        hand.key(grams)
    assert "500.0 g held in all" in hand.words()
    hand.tap("Ink it")

    held = [(one.opening_um, one.retained_mg) for one in hand.body("sieve_test").weights]
    assert held[:2] == [(3350, 0), (2000, 4000)]
    assert held[-1] == (0, 3500)


def test_a_sieve_sheet_comes_from_the_inbox(hand: DayHand, tmp_path: Path) -> None:
    """A CSV in the inbox becomes a sheet of the sand that is tapped; a bad one says why."""
    inbox = tmp_path / "home" / "inbox"
    inbox.mkdir(parents=True, exist_ok=True)
    (inbox / "a.csv").write_text("sieve mm,retained g\n2,heavy\n", encoding="utf-8")
    (inbox / "b.csv").write_text("sieve mm,retained g\n1,10\n0.5,50\npan,40\n", encoding="utf-8")
    hand.on("after", part="sand").taps("Sheet from a file", "a.csv")
    assert hand.entries("sieve_test") == []

    hand.taps("Seen", "b.csv")
    assert hand.body("sieve_test").laboratory == "b.csv"


def test_sand_is_topped_up_and_a_pipe_flushed(hand: DayHand) -> None:
    """Two lines get sand by volume; the collector is flushed for its silt."""
    hand.on("after", part="home").taps("Sand topped up", "sand", "By volume")
    hand.key("1.5")
    hand.taps("Lines (none: all over)", "S01", "S02", "Done", "Ink it")
    hand.taps("Repair or flush", "Flushed", "Low side", "Trouble", "silt in it", "Done")
    hand.tap("Ink it")

    topped, repair = hand.body("sand_top_up"), hand.body("repair")
    assert (topped.line_ids, topped.volume_pl) == (("S01", "S02"), 42_475_269_888_000)
    assert (repair.done, repair.collector_id, repair.why) == ("flushed", "C1", "silt in it")
