"""The fields of the day: hours, lost time, a time of day, a date, temperature, rain."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction

from crewapp.kit.input.forms import Option
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.words.dates import full_day
from crewapp.words.translate import say
from models.units import (
    NM_PER,
    LengthStyle,
    LengthUnit,
    is_day_of_a_job,
    show_duration,
    show_length,
    show_time_of_day,
)
from models.units.job_units import Figures

DAY_MIN = 24 * 60
LONG_DAY_MIN = 14 * 60
HOUR_STEPS = (240, 300, 360, 420, 450, 480, 510, 540, 570, 600, 660, 720)
RUN_STEPS = (0, 30, 60, 120, 180, 240, 300, 360, 420, 480, 540, 600)
LOST_STEPS = (10, 15, 20, 30, 45, 60, 90, 120, 180, 240)
COLDEST_TENTHS_C, HOTTEST_TENTHS_C = -400, 550
MOST_RAIN_NM = 508_000_000  # 20 in
TICKET_DAYS = (10, 14, 15, 20, 28, 30)


def hours_field(name: str) -> FieldSpec:
    """Return a field for hours, typed with quarters as decimals; its figures are minutes."""
    return FieldSpec(
        name=name,
        unit=say("hours"),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=2, places=2),
        parse=_minutes,
        show=show_duration,
        bands=Bands(Band(0, DAY_MIN), Band(0, LONG_DAY_MIN)),
    )


def _minutes(text: str) -> int:
    minutes = Fraction(text) * 60
    if minutes.denominator != 1:
        raise ValueError(
            say("{text} hours are no whole minutes: .25, .5 or .75 would be", text=text)
        )
    return int(minutes)


def lost_field() -> FieldSpec:
    """Return the field of lost time in minutes."""
    return FieldSpec(
        name=say("Time lost"),
        unit="min",
        grammar=Grammar(KeyKind.INTEGER, whole_digits=4, places=0),
        parse=int,
        show=show_duration,
        bands=Bands(Band(1, DAY_MIN), Band(1, LONG_DAY_MIN)),
    )


def clock_field(name: str, is_us: bool) -> FieldSpec:
    """Return a field for a time of day, typed as four digits of the 24-hour clock."""
    return FieldSpec(
        name=name,
        unit=say("as 0930"),
        grammar=Grammar(KeyKind.DIGITS, whole_digits=4),
        parse=_time_of_day,
        show=lambda minutes: show_time_of_day(minutes, halves=is_us),
        bands=Bands(Band(0, DAY_MIN - 1)),
    )


def _time_of_day(text: str) -> int:
    hours, minutes = divmod(int(text), 100)
    if len(text) < 3 or hours > 23 or minutes > 59:
        raise ValueError(say("{text} is no time: 0930 or 1415 would be", text=text))
    return hours * 60 + minutes


def date_field(name: str, today: str, is_us: bool) -> FieldSpec:
    """Return a field for a date near today, typed as month and day: 0615.

    Its figures are days since year 1. The year is the one that brings the date
    nearest to today.
    """
    near = date.fromisoformat(today)
    return FieldSpec(
        name=name,
        unit=say("month and day, as 0615"),
        grammar=Grammar(KeyKind.DIGITS, whole_digits=4),
        parse=lambda text: _near_date(text, near, is_us).toordinal(),
        show=lambda number: full_day(date.fromordinal(number).isoformat(), is_us),
        bands=Bands(Band(near.toordinal() - 200, near.toordinal() + 200)),
    )


def _near_date(text: str, near: date, is_us: bool) -> date:
    found = []
    if len(text) == 4:
        for year in (near.year - 1, near.year, near.year + 1):
            try:
                found.append(date(year, int(text[:2]), int(text[2:])))
            except ValueError:
                continue  # 29 February of a common year
    if not found:
        raise ValueError(say("{text} is no month and day: 0615 would be", text=text))
    nearest = min(found, key=lambda one: abs(one - near))
    if not is_day_of_a_job(nearest):  # the tablet's clock stands in another century
        raise ValueError(
            say(
                "{day} is not in the years 2000 to 2100: set the tablet's clock, then type it.",
                day=full_day(nearest.isoformat(), is_us),
            )
        )
    return nearest


def date_options(today: str, ahead_days: Sequence[int], is_us: bool) -> tuple[Option, ...]:
    """Return dates so many days ahead, or back where below nought, to tap."""
    near = date.fromisoformat(today)
    days = [(ahead, near + timedelta(ahead)) for ahead in ahead_days]
    return tuple(
        Option(day.toordinal(), full_day(day.isoformat(), is_us), _when(ahead))
        for ahead, day in days
    )


def _when(ahead: int) -> str:
    near = {-1: say("yesterday"), 0: say("today"), 1: say("tomorrow")}
    if ahead in near:
        return near[ahead]
    return (
        say("in {days:day|days}", days=ahead)
        if ahead > 0
        else say("{days:day|days} ago", days=-ahead)
    )


def temperature_field(figures: Figures, name: str) -> FieldSpec:
    """Return a field for a temperature in the job's degrees, kept as tenths of a degree C."""
    is_us = figures.is_us
    return FieldSpec(
        name=name,
        unit="F" if is_us else "C",
        grammar=Grammar(KeyKind.INTEGER, whole_digits=3, places=0, is_signed=True),
        parse=lambda text: _tenths_c(int(text), is_us),
        show=lambda tenths: f"{_degrees(tenths, is_us)} {'F' if is_us else 'C'}",
        echo=lambda tenths: f"{_degrees(tenths, not is_us)} {'C' if is_us else 'F'}",
        bands=Bands(Band(COLDEST_TENTHS_C, HOTTEST_TENTHS_C)),
    )


def _tenths_c(degrees: int, is_us: bool) -> int:
    return round(Fraction((degrees - 32) * 50, 9)) if is_us else degrees * 10


def _degrees(tenths: int, is_us: bool) -> int:
    return round(Fraction(tenths * 9, 50) + 32) if is_us else round(Fraction(tenths, 10))


def rain_field(figures: Figures) -> FieldSpec:
    """Return the field of rain since the last reading: hundredths of an inch, or millimetres."""
    ours, other = (_inches, _millimetres) if figures.is_us else (_millimetres, _inches)
    return FieldSpec(
        name=say("Rain"),
        unit="in" if figures.is_us else "mm",
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=3, places=2 if figures.is_us else 1),
        parse=figures.read_depth,
        show=ours,
        echo=other,
        bands=Bands(Band(0, MOST_RAIN_NM)),
    )


def _inches(nm: int) -> str:
    hundredths = round(Fraction(nm, NM_PER[LengthUnit.IN] // 100))
    return f"{hundredths // 100}.{hundredths % 100:02d} in"


def _millimetres(nm: int) -> str:
    return show_length(nm, LengthStyle.MM_10)


def hour_options(steps: Sequence[int]) -> tuple[Option, ...]:
    """Return hours to tap, in natural steps."""
    return tuple(Option(minutes, show_duration(minutes)) for minutes in steps)
