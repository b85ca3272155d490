"""Everything of the day is logged by a few taps, and stands in the book."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.commands.day import CloseDay
from models.entries.kind_names import LOCATE_TICKET
from tests.crewapp.conftest import DAY
from tests.crewapp.pages.day_driver import DayDriver, hands

if TYPE_CHECKING:
    from tests.uidriver import UI


@pytest.fixture
def driver(ui: UI, tmp_path: Path) -> Iterator[DayDriver]:
    """A finger on the Day screen."""
    yield from hands(ui, tmp_path)


def test_person_hours_take_three_taps(driver: DayDriver) -> None:
    """Crew, the person, the hours: inked at once, nothing was offered as read."""
    assert driver.taps("Crew, machines", "Ben Madeup, laser and pipe", "8 h") == 3

    hours = driver.body("hours")
    assert (hours.of, hours.who, hours.run_min) == ("person", "Ben", 480)
    assert "8 h" in driver.words()


def test_hours_are_typed_as_decimals(driver: DayDriver) -> None:
    """7.25 on the pad is seven hours and a quarter."""
    driver.taps("Crew, machines", "Ana Invented, foreman", "Number pad")
    driver.key("7.25")

    assert driver.body("hours").run_min == 435


def test_machine_has_three_figures(driver: DayDriver) -> None:
    """Running is needed; standing by and broken down are for who has them."""
    driver.taps("Crew, machines", "twin", "6 h", "Standing by", "1 h", "Ink it")

    hours = driver.body("hours")
    assert (hours.of, hours.run_min, hours.idle_min, hours.down_min) == ("machine", 360, 60, 0)


def test_weather_takes_four_taps(driver: DayDriver) -> None:
    """Weather, sky, ground, ink; temperature and rain only for who has them."""
    assert driver.taps("Weather, ground", "rain", "standing water", "Ink it") == 4

    weather = driver.body("weather")
    assert (weather.sky, weather.ground) == ("rain", "standing_water")
    assert (weather.low_tenths_c, weather.rain_nm) == (None, None)
    assert driver.page.filling.answers_of("weather") == {}  # the next one is asked anew


def test_temperature_and_rain_come_from_the_pad(driver: DayDriver) -> None:
    """41 F is 5.0 C; 0.25 in of rain is a quarter of an inch."""
    driver.taps("Weather, ground", "cloud", "wet", "Coldest")
    driver.key("41")
    driver.tap("Rain")
    driver.key("0.25")
    driver.tap("Ink it")

    weather = driver.body("weather")
    assert (weather.low_tenths_c, weather.rain_nm) == (50, 6_350_000)
    assert (weather.temperature_typed, weather.rain_typed) == ("41 F", "0.25")


def test_delay_takes_two_taps(driver: DayDriver) -> None:
    """Within the budget: the cause, then how long."""
    driver.tap("Delay")

    assert driver.taps("rain", "30 min") == 2
    delay = driver.body("delay")
    assert (delay.cause, delay.lost_min, delay.start_min) == ("rain", 30, None)


def test_delay_runs_until_work_goes_on(driver: DayDriver) -> None:
    """Its cause starts it, other things are logged meanwhile, one tap ends it."""
    driver.taps("Delay", "breakdown", "Back")
    driver.taps("Note", "Gate locked", "Done", "Ink it")
    driver.clock.pass_seconds(25 * 60)
    driver.on("day")
    assert any(words == "runs 25 min" for words in driver.words())
    driver.taps("Delay", "Work goes on now")

    delay = driver.body("delay")
    assert (delay.cause, delay.lost_min) == ("breakdown", 26)
    assert delay.start_min == 9 * 60


def test_delay_that_began_earlier(driver: DayDriver) -> None:
    """0840 on the pad: the count begins there."""
    driver.taps("Delay", "rain", "Began earlier")
    driver.key("0840")
    driver.tap("Work goes on now")

    delay = driver.body("delay")
    assert (delay.start_min, delay.lost_min) == (8 * 60 + 40, 20)


def test_no_delay_is_forgotten(driver: DayDriver) -> None:
    """A cause tapped by chance leaves nothing."""
    driver.taps("Delay", "rain", "No delay")

    assert driver.entries("delay") == []
    assert driver.page.filling.answers_of("delay") == {}


def test_something_hit_tells_of_danger_first(driver: DayDriver) -> None:
    """What to do for people stands there before anything else is asked."""
    driver.taps("Found or hit", "Hit")
    said = " ".join(driver.words())
    assert "DANGER" in said
    assert "Keep people away" in said
    assert "What is it?" not in said
    driver.taps("Done, go on", "gas", "Green seven", "Done", "Ink it")

    met = driver.body("utility")
    assert (met.event, met.what, met.where) == ("hit", "gas", "Green seven")


def test_something_found_tells_of_no_danger(driver: DayDriver) -> None:
    """The word is kept for people: a wire found whole has none."""
    driver.taps("Found or hit", "Found")

    assert "DANGER" not in " ".join(driver.words())
    driver.taps("old drain", "Low side", "Done", "Depth")
    driver.key("9")
    driver.tap("Ink it")
    assert driver.body("utility").depth_nm == 9 * 25_400_000


def test_note_for_the_owner(driver: DayDriver) -> None:
    """Words by chip or keyboard; one tap sets that the owner must decide."""
    driver.taps("Note", "Extra work asked for", "Done", "Needs the owner", "Ink it")

    note = driver.body("note")
    assert (note.text, note.needs_owner) == ("Extra work asked for", True)


def test_note_is_typed(driver: DayDriver) -> None:
    """The system's keyboard serves notes alone."""
    driver.tap("Note")
    driver.ui.tap(driver.page.part.text)
    driver.ui.type("moved the pile")
    driver.settle()
    driver.taps("Done", "Ink it")

    assert driver.body("note").text == "moved the pile"


def test_tomorrow_names_work_sand_and_ground(driver: DayDriver) -> None:
    """Sand as tons on the pad; the rest by chips."""
    driver.taps("Tomorrow", "piped slits", "Done", "Sand")
    driver.key("12.5")
    driver.taps("Must be clear", "Green seven", "Done", "Ink it")

    plan = driver.body("tomorrow")
    assert (plan.work, plan.must_be_clear, plan.sand_typed) == (
        "piped slits",
        "Green seven",
        "12.5",
    )
    assert plan.sand_ug == 11_339_809_250_000


def test_locate_ticket_is_added(driver: DayDriver) -> None:
    """Its number on the pad, its days by chips, the ground it covers."""
    driver.taps("Locate tickets", "Add a ticket")
    driver.key("0457")
    driver.taps("today", "in 14 days", "Low side", "Done", "Ink it")

    ticket: Any = driver.job.state.latest(LOCATE_TICKET, "0457")
    assert (ticket.valid_from, ticket.expires_on) == (DAY, "2026-05-25")
    assert ticket.surfaces == ("C1",)


def test_refused_form_keeps_its_answers(driver: DayDriver) -> None:
    """A day closed meanwhile refuses; what was answered waits."""
    driver.taps("Weather, ground", "rain", "wet")
    driver.do(CloseDay(day=DAY))
    driver.page.filling.ink()
    driver.settle()

    assert "is closed" in driver.banner
    assert driver.page.filling.answers["sky"] == "rain"
    assert driver.entries("weather") == []
