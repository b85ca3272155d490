"""The fields of the day read what is typed, and say why they can't."""

from __future__ import annotations

from datetime import date

import pytest

from crewapp.kit.input.day_fields import (
    clock_field,
    date_field,
    date_options,
    hours_field,
    lost_field,
    rain_field,
    temperature_field,
)
from models.units import UnitSystem
from models.units.job_units import Figures

US, METRIC = Figures(), Figures(UnitSystem.METRIC)


@pytest.mark.parametrize(
    ("text", "minutes", "shown"),
    [("8", 480, "8 h"), ("7.25", 435, "7 h 15 min"), ("0.5", 30, "30 min"), ("0.1", 6, "6 min")],
)
def test_hours_are_whole_minutes(text: str, minutes: int, shown: str) -> None:
    """Hours with decimals, worked by hand: 7.25 x 60 = 435."""
    field = hours_field("Hours")

    assert field.parse(text) == minutes
    assert field.show(minutes) == shown


def test_hours_that_are_no_whole_minutes_are_refused() -> None:
    """0.33 h is 19.8 minutes: nobody meant that."""
    with pytest.raises(ValueError, match="no whole minutes"):
        hours_field("Hours").parse("0.33")


@pytest.mark.parametrize(
    ("text", "minutes"), [("0930", 570), ("930", 570), ("2359", 1439), ("0000", 0)]
)
def test_time_of_day_is_read(text: str, minutes: int) -> None:
    """Four digits of the 24-hour clock."""
    assert clock_field("Began", is_us=True).parse(text) == minutes


@pytest.mark.parametrize("text", ["2400", "0960", "9", "99"])
def test_no_time_of_day_is_refused(text: str) -> None:
    """An hour past 23, a minute past 59, or too few digits."""
    with pytest.raises(ValueError, match="is no time"):
        clock_field("Began", is_us=False).parse(text)


@pytest.mark.parametrize(
    ("today", "text", "found"),
    [
        ("2026-05-11", "0615", "Mon Jun 15, 2026"),
        ("2026-12-20", "0105", "Tue Jan 5, 2027"),
        ("2026-01-05", "1220", "Sat Dec 20, 2025"),
        ("2028-02-01", "0229", "Tue Feb 29, 2028"),
    ],
)
def test_date_is_the_nearest_of_its_name(today: str, text: str, found: str) -> None:
    """The year is the one that brings it nearest to today."""
    field = date_field("Good until", today, is_us=True)

    assert field.show(field.parse(text)) == found


@pytest.mark.parametrize("text", ["0230", "1301", "61", "0000"])
def test_no_date_is_refused(text: str) -> None:
    """No calendar has it."""
    with pytest.raises(ValueError, match="no month and day"):
        date_field("Good until", "2026-05-11", is_us=True).parse(text)


def test_date_options_count_from_today() -> None:
    """Today, tomorrow, and so many days ahead."""
    options = date_options("2026-05-11", (0, 1, 14), is_us=True)

    assert [option.text for option in options] == [
        "Mon May 11, 2026",
        "Tue May 12, 2026",
        "Mon May 25, 2026",
    ]
    assert [option.note for option in options] == ["today", "tomorrow", "in 14 days"]
    assert options[2].value == date(2026, 5, 25).toordinal()


@pytest.mark.parametrize(
    ("figures", "text", "tenths", "shown", "echo"),
    [
        (US, "41", 50, "41 F", "5 C"),
        (US, "-40", -400, "-40 F", "-40 C"),
        (US, "68", 200, "68 F", "20 C"),
        (METRIC, "5", 50, "5 C", "41 F"),
    ],
)
def test_temperature_is_kept_in_tenths(
    figures: Figures, text: str, tenths: int, shown: str, echo: str
) -> None:
    """By hand: (41 - 32) x 5 / 9 = 5; the two scales meet at -40."""
    field = temperature_field(figures, "Lowest")

    assert field.parse(text) == tenths
    assert field.show(tenths) == shown
    assert field.echo is not None
    assert field.echo(tenths) == echo


def test_every_whole_degree_comes_back_as_typed() -> None:
    """Tenths of a degree C are fine enough for whole degrees F."""
    field = temperature_field(US, "Lowest")

    assert all(field.show(field.parse(str(f))) == f"{f} F" for f in range(-40, 131))


def test_rain_in_both_systems() -> None:
    """A quarter of an inch is 6.35 mm; 2.5 mm is a tenth of an inch, nearly."""
    inches, millimetres = rain_field(US), rain_field(METRIC)

    assert inches.parse("0.25") == 6_350_000
    assert inches.show(6_350_000) == "0.25 in"
    assert millimetres.parse("2.5") == 2_500_000
    assert millimetres.show(2_500_000) == "2.5 mm"
    assert millimetres.echo is not None
    assert millimetres.echo(2_500_000) == "0.10 in"


def test_lost_time_is_never_nothing() -> None:
    """A delay of no minutes is none."""
    hard = lost_field().bands.plausible

    assert hard is not None
    assert hard.low == 1
