"""Everything of the day is logged by a few taps, and stands in the book."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.day import CloseDay
from models.entries.kind_names import LOCATE_TICKET
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_hand import DayHand, hands

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def hand(ui: UI, tmp_path: Path) -> Iterator[DayHand]:
    """A finger on the Day screen."""
    yield from hands(ui, tmp_path)


def test_person_hours_take_three_taps(hand: DayHand) -> None:
    """Crew, the person, the hours: inked at once, nothing was offered as read."""
    assert hand.taps("Crew, machines", "Ben Madeup, laser and pipe", "8 h") == 3

    hours = hand.body("hours")
    assert (hours.of, hours.who, hours.run_min) == ("person", "Ben", 480)
    assert "8 h" in hand.words()


def test_hours_are_typed_as_decimals(hand: DayHand) -> None:
    """7.25 on the pad is seven hours and a quarter."""
    hand.taps("Crew, machines", "Ana Invented, foreman", "Number pad")
    hand.key("7.25")

    assert hand.body("hours").run_min == 435


def test_machine_has_three_figures(hand: DayHand) -> None:
    """Running is needed; standing by and broken down are for who has them."""
    hand.taps("Crew, machines", "twin", "6 h", "Standing by", "1 h", "Ink it")

    hours = hand.body("hours")
    assert (hours.of, hours.run_min, hours.idle_min, hours.down_min) == ("machine", 360, 60, 0)


def test_weather_takes_four_taps(hand: DayHand) -> None:
    """Weather, sky, ground, ink; temperature and rain only for who has them."""
    assert hand.taps("Weather, ground", "rain", "standing water", "Ink it") == 4

    weather = hand.body("weather")
    assert (weather.sky, weather.ground) == ("rain", "standing_water")
    assert (weather.low_tenths_c, weather.rain_nm) == (None, None)
    assert hand.page.filling.answers_of("weather") == {}  # the next one is asked anew


def test_temperature_and_rain_come_from_the_pad(hand: DayHand) -> None:
    """41 F is 5.0 C; 0.25 in of rain is a quarter of an inch."""
    hand.taps("Weather, ground", "cloud", "wet", "Coldest")
    hand.key("41")
    hand.tap("Rain")
    hand.key("0.25")
    hand.tap("Ink it")

    weather = hand.body("weather")
    assert (weather.low_tenths_c, weather.rain_nm) == (50, 6_350_000)
    assert (weather.temperature_typed, weather.rain_typed) == ("41 F", "0.25")


def test_delay_takes_two_taps(hand: DayHand) -> None:
    """Within the budget: the cause, then how long."""
    hand.tap("Delay")

    assert hand.taps("rain", "30 min") == 2
    delay = hand.body("delay")
    assert (delay.cause, delay.lost_min, delay.start_min) == ("rain", 30, None)


def test_delay_runs_until_work_goes_on(hand: DayHand) -> None:
    """Its cause starts it, other things are logged meanwhile, one tap ends it."""
    hand.taps("Delay", "breakdown", "Back")
    hand.taps("Note", "Gate locked", "Done", "Ink it")
    hand.clock.pass_seconds(25 * 60)
    hand.on("day")
    assert any(words == "runs 25 min" for words in hand.words())
    hand.taps("Delay", "Work goes on now")

    delay = hand.body("delay")
    assert (delay.cause, delay.lost_min) == ("breakdown", 26)
    assert delay.start_min == 9 * 60


def test_delay_that_began_earlier(hand: DayHand) -> None:
    """0840 on the pad: the count begins there."""
    hand.taps("Delay", "rain", "Began earlier")
    hand.key("0840")
    hand.tap("Work goes on now")

    delay = hand.body("delay")
    assert (delay.start_min, delay.lost_min) == (8 * 60 + 40, 20)


def test_no_delay_is_forgotten(hand: DayHand) -> None:
    """A cause tapped by chance leaves nothing."""
    hand.taps("Delay", "rain", "No delay")

    assert hand.entries("delay") == []
    assert hand.page.filling.answers_of("delay") == {}


def test_something_hit_tells_of_danger_first(hand: DayHand) -> None:
    """What to do for people stands there before anything else is asked."""
    hand.taps("Found or hit", "Hit")
    said = " ".join(hand.words())
    assert "DANGER" in said
    assert "Keep people away" in said
    assert "What is it?" not in said
    hand.taps("Done, go on", "gas", "Green seven", "Done", "Ink it")

    met = hand.body("utility")
    assert (met.event, met.what, met.where) == ("hit", "gas", "Green seven")


def test_something_found_tells_of_no_danger(hand: DayHand) -> None:
    """The word is kept for people: a wire found whole has none."""
    hand.taps("Found or hit", "Found")

    assert "DANGER" not in " ".join(hand.words())
    hand.taps("old drain", "Low side", "Done", "Depth")
    hand.key("9")
    hand.tap("Ink it")
    assert hand.body("utility").depth_nm == 9 * 25_400_000


def test_note_for_the_owner(hand: DayHand) -> None:
    """Words by chip or keyboard; one tap sets that the owner must decide."""
    hand.taps("Note", "Extra work asked for", "Done", "Needs the owner", "Ink it")

    note = hand.body("note")
    assert (note.text, note.needs_owner) == ("Extra work asked for", True)


def test_note_is_typed(hand: DayHand) -> None:
    """The system's keyboard serves notes alone."""
    hand.tap("Note")
    hand.ui.tap(hand.page.part.text)
    hand.ui.type("moved the pile")
    hand.settle()
    hand.taps("Done", "Ink it")

    assert hand.body("note").text == "moved the pile"


def test_tomorrow_names_work_sand_and_ground(hand: DayHand) -> None:
    """Sand as tons on the pad; the rest by chips."""
    hand.taps("Tomorrow", "piped slits", "Done", "Sand")
    hand.key("12.5")
    hand.taps("Must be clear", "Green seven", "Done", "Ink it")

    plan = hand.body("tomorrow")
    assert (plan.work, plan.must_be_clear, plan.sand_typed) == (
        "piped slits",
        "Green seven",
        "12.5",
    )
    assert plan.sand_ug == 11_339_809_250_000


def test_locate_ticket_is_added(hand: DayHand) -> None:
    """Its number on the pad, its days by chips, the ground it covers."""
    hand.taps("Locate tickets", "Add a ticket")
    hand.key("0457")
    hand.taps("today", "in 14 days", "Low side", "Done", "Ink it")

    ticket: Any = hand.job.state.latest(LOCATE_TICKET, "0457")
    assert (ticket.valid_from, ticket.expires_on) == (DAY, "2026-05-25")
    assert ticket.surfaces == ("C1",)


def test_refused_form_keeps_its_answers(hand: DayHand) -> None:
    """A day closed meanwhile refuses; what was answered waits."""
    hand.taps("Weather, ground", "rain", "wet")
    hand.do(CloseDay(day=DAY))
    hand.page.filling.ink()
    hand.settle()

    assert "is closed" in hand.banner
    assert hand.page.filling.answers["sky"] == "rain"
    assert hand.entries("weather") == []
