"""Laws of reading and showing, over values that nobody picked."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import UnreadableError
from models.units import (
    PL_PER,
    STEP_NM,
    UG_PER,
    GradeStyle,
    LengthStyle,
    LengthUnit,
    MassStyle,
    MassUnit,
    StationStyle,
    VolumeStyle,
    VolumeUnit,
    parse_duration,
    parse_grade,
    parse_length,
    parse_mass,
    parse_station,
    parse_time_of_day,
    parse_volume,
    round_half_even,
    show_duration,
    show_grade,
    show_length,
    show_mass,
    show_station,
    show_time_of_day,
    show_volume,
)
from tests.models.units.readers import READERS

LENGTHS = st.integers(-(10**15), 10**15)
SIZES = st.integers(0, 10**17)
GRADES = st.fractions(-1, 1)
STATION_SHOWS = [(style, places) for style in StationStyle for places in (0, 1, 2, 3)]

read_length = partial(parse_length, unit=LengthUnit.MM, signed=True)
read_volume = partial(parse_volume, unit=VolumeUnit.L)
read_mass = partial(parse_mass, unit=MassUnit.KG)


@pytest.mark.parametrize("style", LengthStyle)
@given(count=st.integers(-(10**7), 10**7))
def test_length_at_its_resolution_comes_back(style: LengthStyle, count: int) -> None:
    """A length that the style can show is read back to the nanometre."""
    nm = count * STEP_NM[style]

    assert read_length(show_length(nm, style)) == nm
    assert not show_length(nm, style, mark=True).startswith("~")


@pytest.mark.parametrize("style", LengthStyle)
@given(nm=LENGTHS)
def test_any_length_comes_back_within_half_a_step(style: LengthStyle, nm: int) -> None:
    """Showing moves a length by at most half of the last figure, once."""
    back_nm = read_length(show_length(nm, style))

    assert 2 * abs(back_nm - nm) <= STEP_NM[style]
    assert show_length(back_nm, style) == show_length(nm, style)
    assert show_length(nm, style, mark=True).startswith("~") is (back_nm != nm)


def _keeps_order(
    read: Callable[[str], Any], show: Callable[[Any], str], one: Any, two: Any
) -> bool:
    """Whether the shown figures stand in the order of the stored ones."""
    low, high = sorted((one, two))
    return bool(read(show(low)) <= read(show(high)))


@pytest.mark.parametrize("style", LengthStyle)
@given(nm=LENGTHS, further_nm=st.integers(0, 10**8))
def test_showing_lengths_keeps_their_order(style: LengthStyle, nm: int, further_nm: int) -> None:
    """A shorter length is never shown as the longer one."""
    assert _keeps_order(read_length, partial(show_length, style=style), nm, nm + further_nm)


@pytest.mark.parametrize(("style", "places"), STATION_SHOWS)
@given(nm=LENGTHS, further_nm=st.integers(0, 10**10))
def test_stations(style: StationStyle, places: int, nm: int, further_nm: int) -> None:
    """A shown station is read back as itself, and order along the line is kept."""
    read = partial(parse_station, style=style)
    show = partial(show_station, style=style, places=places)

    assert show(read(show(nm))) == show(nm)
    assert _keeps_order(read, show, nm, nm + further_nm)


@given(thousandths=st.integers(-(10**8), 10**8))
def test_station_to_the_thousandth_comes_back(thousandths: int) -> None:
    """Thousandths of a foot and millimetres survive the station form."""
    for style, step_nm in ((StationStyle.US_100FT, 304_800), (StationStyle.METRIC_1000M, 10**6)):
        nm = thousandths * step_nm
        assert parse_station(show_station(nm, style, 3), style) == nm


@pytest.mark.parametrize("style", GradeStyle)
@given(one=GRADES, two=GRADES)
def test_grades(style: GradeStyle, one: Fraction, two: Fraction) -> None:
    """A shown grade is read back as itself, and steeper is never shown as flatter."""
    show = partial(show_grade, style=style)

    assert show(parse_grade(show(one))) == show(one)
    assert _keeps_order(parse_grade, show, one, two)
    assert show(one, mark=True).startswith("~") is (parse_grade(show(one)) != one)


@pytest.mark.parametrize("style", VolumeStyle)
@given(one_pl=SIZES, two_pl=SIZES)
def test_volumes(style: VolumeStyle, one_pl: int, two_pl: int) -> None:
    """A shown volume is read back as itself, and order is kept."""
    show = partial(show_volume, style=style)

    assert show(read_volume(show(one_pl))) == show(one_pl)
    assert _keeps_order(read_volume, show, one_pl, two_pl)


@pytest.mark.parametrize("style", MassStyle)
@given(one_ug=SIZES, two_ug=SIZES)
def test_masses(style: MassStyle, one_ug: int, two_ug: int) -> None:
    """A shown mass is read back as itself, and order is kept."""
    show = partial(show_mass, style=style)

    assert show(read_mass(show(one_ug))) == show(one_ug)
    assert _keeps_order(read_mass, show, one_ug, two_ug)


@given(hundredths=st.integers(0, 10**5))
def test_tickets_come_back_as_printed(hundredths: int) -> None:
    """A ticket to the hundredth of any unit is stored so that it prints the same."""
    pl = round_half_even(hundredths * PL_PER[VolumeUnit.YD3], 100)
    ug = round_half_even(hundredths * UG_PER[MassUnit.TON], 100)

    assert read_volume(show_volume(pl, VolumeStyle.YD3_100)) == pl
    assert read_mass(show_mass(ug, MassStyle.TON_100)) == ug


@given(minutes=st.integers(0, 1439))
def test_clock_comes_back(minutes: int) -> None:
    """Times of day and durations are read back to the minute."""
    assert parse_time_of_day(show_time_of_day(minutes)) == minutes
    assert parse_time_of_day(show_time_of_day(minutes, halves=True)) == minutes
    assert parse_duration(show_duration(minutes)) == minutes


@given(numerator=st.integers(), denominator=st.integers().filter(bool))
def test_rounding_agrees_with_the_fraction(numerator: int, denominator: int) -> None:
    """Whole-number rounding gives what exact fractions round to."""
    assert round_half_even(numerator, denominator) == round(Fraction(numerator, denominator))


ALIKE = st.text(
    "0123456789./-+'\" :%,exinfmtlbydgalcubperstah\u00bd\u2153\u2019\u201d\u2032\u2044\u2013\u2030"
    "\u00b3\u0663\u00a0\u200b\ud800\n",
    max_size=24,
)


def refusal_of(reader: str, text: str) -> UnreadableError | None:
    """Give the refusal of a text, or None if it is read; anything else is let through."""
    try:
        READERS[reader](text)
    except UnreadableError as error:
        return error
    return None


@pytest.mark.parametrize("reader", READERS)
@given(text=st.one_of(st.text(max_size=60), ALIKE))
def test_no_text_raises_anything_else(reader: str, text: str) -> None:
    """A text is read or refused, the place lies in it, and the refusal can be written."""
    refusal = refusal_of(reader, text)

    if refusal is not None:
        place = refusal.context["place"]
        assert isinstance(place, int)
        assert 1 <= place <= len(text) + 1
        assert str(refusal)
