"""How stored figures are written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.units import (
    GradeStyle,
    LengthStyle,
    LengthUnit,
    MassStyle,
    MassUnit,
    StationStyle,
    VolumeStyle,
    VolumeUnit,
    parse_length,
    parse_mass,
    parse_volume,
    round_half_even,
    show_duration,
    show_grade,
    show_length,
    show_length_beside_limits,
    show_mass,
    show_station,
    show_time_of_day,
    show_volume,
)

FT_NM = 304_800_000


@pytest.mark.parametrize(
    ("typed", "style", "shown"),
    [
        ("8-1/2 in", LengthStyle.IN_8, "8-1/2 in"),
        ("9 in", LengthStyle.IN_8, "9 in"),
        ("3/8 in", LengthStyle.IN_8, "3/8 in"),
        ("-3/8 in", LengthStyle.IN_8, "-3/8 in"),
        ("-8-1/2 in", LengthStyle.IN_8, "-8-1/2 in"),
        ("0 in", LengthStyle.IN_8, "0 in"),
        ("8-3/16 in", LengthStyle.IN_16, "8-3/16 in"),
        ("8.5 in", LengthStyle.IN_10, "8.5 in"),
        ("9 in", LengthStyle.IN_10, "9.0 in"),
        ("40 ft", LengthStyle.FT_1, "40 ft"),
        ("40 ft", LengthStyle.FT_10, "40.0 ft"),
        ("5.4 ft", LengthStyle.FT_100, "5.40 ft"),
        ("-0.02 ft", LengthStyle.FT_100, "-0.02 ft"),
        ("5.43 ft", LengthStyle.FT_1000, "5.430 ft"),
        ("2'3-1/2\"", LengthStyle.FT_IN_8, "2'3-1/2\""),
        ("-2'3-1/2\"", LengthStyle.FT_IN_8, "-2'3-1/2\""),
        ("3 in", LengthStyle.FT_IN_8, "0'3\""),
        ("216.4 mm", LengthStyle.MM, "216 mm"),
        ("216.4 mm", LengthStyle.MM_10, "216.4 mm"),
        ("216 mm", LengthStyle.CM_10, "21.6 cm"),
        ("1.655 m", LengthStyle.M_1000, "1.655 m"),
        ("1.655 m", LengthStyle.M_100, "1.66 m"),  # a tie: 166 is even
        ("1.645 m", LengthStyle.M_100, "1.64 m"),  # a tie: 164 is even
        ("-1.655 m", LengthStyle.M_10, "-1.7 m"),
        ("-1 mm", LengthStyle.FT_10, "0.0 ft"),
        ("11-63/64 in", LengthStyle.FT_IN_8, "1'0\""),
    ],
)
def test_length(typed: str, style: LengthStyle, shown: str) -> None:
    """Each style has its unit, its last figure and no minus before nothing."""
    assert show_length(parse_length(typed, LengthUnit.IN, signed=True), style) == shown


def test_mark_stands_only_before_what_is_not_exact() -> None:
    """A coarser figure than the stored one says so."""
    nm = parse_length("0.71", LengthUnit.FT)

    assert show_length(nm, LengthStyle.IN_8, mark=True) == "~8-1/2 in"
    assert show_length(nm, LengthStyle.FT_100, mark=True) == "0.71 ft"
    assert show_length(nm, LengthStyle.FT_IN_8, mark=True, unit=False) == "~0'8-1/2\""
    assert show_grade(Fraction(1, 192), mark=True) == "~0.52 %"
    assert show_grade(Fraction(1, 192), GradeStyle.IN_PER_FT, mark=True) == "1/16 in/ft"
    assert show_grade(Fraction(2, 301), GradeStyle.RATIO, mark=True) == "~1:150"
    assert show_station(FT_NM // 8, StationStyle.US_100FT, mark=True) == "~0+00.1"


def test_unit_can_be_left_off() -> None:
    """Columns name their unit once, at the head."""
    assert show_length(215_900_000, LengthStyle.IN_8, unit=False) == "8-1/2"
    assert show_volume(10**15, VolumeStyle.M3_100, unit=False) == "1.00"
    assert show_mass(10**12, MassStyle.TONNE_100, unit=False) == "1.00"


@pytest.mark.parametrize(
    ("thousandths", "style", "places", "shown"),
    [
        (125_500, StationStyle.US_100FT, 1, "1+25.5"),
        (0, StationStyle.US_100FT, 2, "0+00.00"),
        (7_250, StationStyle.US_100FT, 0, "0+07"),
        (99_960, StationStyle.US_100FT, 1, "1+00.0"),
        (-145_670, StationStyle.US_100FT, 2, "-1+45.67"),
        (-40, StationStyle.US_100FT, 1, "0+00.0"),
        (125_500, StationStyle.METRIC_1000M, 1, "0+125.5"),
        (1_256_020, StationStyle.METRIC_100M, 2, "12+56.02"),
    ],
)
def test_station(thousandths: int, style: StationStyle, places: int, shown: str) -> None:
    """Figures after the plus are filled up with zeros, and carry over."""
    unit_nm = FT_NM if style is StationStyle.US_100FT else 1_000_000_000

    assert show_station(thousandths * unit_nm // 1000, style, places) == shown


@pytest.mark.parametrize(
    ("grade", "style", "shown"),
    [
        (Fraction(1, 100), GradeStyle.PERCENT_100, "1.00 %"),
        (Fraction(-1, 200), GradeStyle.PERCENT_100, "-0.50 %"),
        (Fraction(1, 192), GradeStyle.PERCENT_1000, "0.521 %"),
        (Fraction(1, 200), GradeStyle.RATIO, "1:200"),
        (Fraction(-1, 200), GradeStyle.RATIO, "-1:200"),
        (Fraction(2, 3), GradeStyle.RATIO, "1:1.5"),
        (Fraction(10, 99), GradeStyle.RATIO, "1:9.9"),
        (Fraction(10, 101), GradeStyle.RATIO, "1:10"),
        (Fraction(10, 995), GradeStyle.RATIO, "1:100"),
        (Fraction(0), GradeStyle.RATIO, "level"),
        (Fraction(1, 96), GradeStyle.IN_PER_FT, "1/8 in/ft"),
        (Fraction(-5, 48), GradeStyle.IN_PER_FT, "-1-1/4 in/ft"),
        (Fraction(0), GradeStyle.IN_PER_FT, "0 in/ft"),
        (Fraction(1, 200), GradeStyle.MM_PER_M, "5.0 mm/m"),
    ],
)
def test_grade(grade: Fraction, style: GradeStyle, shown: str) -> None:
    """Each style of a grade keeps its sign."""
    assert show_grade(grade, style) == shown


def test_volume_and_mass() -> None:
    """The unit follows, trailing zeros stay."""
    assert (
        show_volume(parse_volume("12.5", VolumeUnit.YD3), VolumeStyle.YD3_100) == "12.50 yd\u00b3"
    )
    assert show_volume(parse_volume("1 yd3", VolumeUnit.L), VolumeStyle.FT3_10) == "27.0 ft\u00b3"
    assert show_volume(parse_volume("250", VolumeUnit.L), VolumeStyle.L_1) == "250 L"
    assert show_mass(parse_mass("12.5", MassUnit.TON), MassStyle.TON_100) == "12.50 ton"
    assert show_mass(parse_mass("12.5", MassUnit.TON), MassStyle.LB_1) == "25000 lb"
    assert show_mass(parse_mass("1 ton", MassUnit.TON), MassStyle.TONNE_1000) == "0.907 t"
    assert show_mass(parse_mass("1 ton", MassUnit.TON), MassStyle.KG_1, mark=True) == "~907 kg"


def test_clock() -> None:
    """Noon and midnight are 12, a new day starts over."""
    assert [show_time_of_day(m, halves=True) for m in (0, 425, 720, 1439)] == [
        "12:00 am",
        "7:05 am",
        "12:00 pm",
        "11:59 pm",
    ]
    assert show_time_of_day(1445) == "00:05"
    assert [show_duration(m) for m in (0, 45, 120, 75)] == ["0 min", "45 min", "2 h", "1 h 15 min"]


@pytest.mark.parametrize(
    ("numerator", "denominator", "nearest"),
    [(1, 2, 0), (3, 2, 2), (5, 2, 2), (-1, 2, 0), (-3, 2, -2), (3, -2, -2), (-5, -2, 2), (7, 3, 2)],
)
def test_half_goes_to_the_even_number(numerator: int, denominator: int, nearest: int) -> None:
    """One rule for whole numbers and for fractions, whatever the signs."""
    assert round_half_even(numerator, denominator) == nearest
    assert round_half_even(Fraction(numerator, denominator)) == nearest


@pytest.mark.parametrize(
    ("typed", "limit", "style", "shown"),
    [
        ("8-7/16 in", "8-1/2 in", LengthStyle.IN_8, "8-7/16 in"),  # eighths would show the limit
        ("8-5/8 in", "8-1/2 in", LengthStyle.IN_8, "8-5/8 in"),
        ("8-1/2 in", "8-1/2 in", LengthStyle.IN_8, "8-1/2 in"),
        ("98.4549 ft", "98.45 ft", LengthStyle.FT_100, "98.455 ft"),
        ("8.4999 in", "8-1/2 in", LengthStyle.IN_8, "~8.500 in"),
    ],
)
def test_figure_stays_on_its_side_of_the_limit(
    typed: str, limit: str, style: LengthStyle, shown: str
) -> None:
    """A reading that is out is never shown as the limit itself."""
    nm, limit_nm = (parse_length(text, LengthUnit.IN) for text in (typed, limit))

    assert show_length_beside_limits(nm, [limit_nm], style) == shown
