"""Conversion facts against their published sources."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.units import (
    NM_PER,
    GradeStyle,
    LengthStyle,
    LengthUnit,
    MassStyle,
    MassUnit,
    StationStyle,
    VolumeStyle,
    VolumeUnit,
    parse_grade,
    parse_length,
    parse_mass,
    parse_station,
    parse_volume,
    show_grade,
    show_length,
    show_mass,
    show_volume,
)

SAME_LENGTH = [
    # Federal Register 2020-21902 (NIST and NOAA): from 2023 the foot is the international
    # foot, 0.3048 m exactly
    ("1 ft", "0.3048 m"),
    # Refinement of the yard and the pound, Federal Register, 30 June 1959: 1 in = 25.4 mm (from
    # memory; it follows from 0.3048 m / 12)
    ("1 in", "25.4 mm"),
    ("1 in", "2.54 cm"),
    ("12 in", "1 ft"),
    # "Metric feet" of engineers' rods (a crew manual, ogfomk.com): 0.01 ft = 0.12 in
    ("0.01 ft", "0.12 in"),
    ("1'1-13/64\"", "13.203125 in"),
]


@pytest.mark.parametrize(("one", "other"), SAME_LENGTH)
def test_lengths_that_are_the_same(one: str, other: str) -> None:
    """Both spellings give the same nanometres."""
    assert parse_length(one, LengthUnit.M) == parse_length(other, LengthUnit.M)


def test_survey_foot_is_not_the_foot() -> None:
    """The withdrawn foot of 1200/3937 m is 2 in a million longer (Federal Register 2020-21902)."""
    survey_nm = Fraction(1200 * 10**9, 3937)
    apart = survey_nm / NM_PER[LengthUnit.FT] - 1

    assert Fraction(19, 10**7) < apart < Fraction(21, 10**7)


def test_hundredths_are_taken_for_eighths_only_until_a_foot() -> None:
    """0.01 ft is 24/25 of 1/8 in, 0.005 in short (a crew manual, ogfomk.com: 96 meet 100)."""
    hundredth_nm = parse_length("0.01", LengthUnit.FT)
    eighth_nm = parse_length("1/8", LengthUnit.IN)

    assert Fraction(hundredth_nm, eighth_nm) == Fraction(24, 25)
    assert eighth_nm - hundredth_nm == parse_length("0.005", LengthUnit.IN)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        # NIST Handbook 44, appendix C: the gallon is 231 cubic inches, the cubic yard 27 cubic
        # feet, the litre a cubic decimetre (from memory)
        ("1728 gal", "231 ft3"),
        ("1 gal", "3.785411784 L"),
        ("1 ft3", "28.316846592 L"),
        ("1 yd3", "27 ft3"),
        ("1 yd3", "0.764554857984 m3"),
        ("1 m3", "1000 L"),
    ],
)
def test_volumes_that_are_the_same(one: str, other: str) -> None:
    """Both spellings give the same picolitres."""
    assert parse_volume(one, VolumeUnit.M3) == parse_volume(other, VolumeUnit.M3)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        # Federal Register, 30 June 1959: the pound is 0.45359237 kg exactly (from memory)
        ("1 lb", "0.45359237 kg"),
        # NIST Handbook 44, appendix C: the short ton is 2000 lb (from memory)
        ("1 ton", "2000 lb"),
        ("1 ton", "907.18474 kg"),
        ("1 tonne", "1000 kg"),
    ],
)
def test_masses_that_are_the_same(one: str, other: str) -> None:
    """Both spellings give the same micrograms."""
    assert parse_mass(one, MassUnit.KG) == parse_mass(other, MassUnit.KG)


def test_tonne_in_short_tons() -> None:
    """A tonne is 1.1023 short tons, 2204.6 lb (NIST Handbook 44, appendix C, from memory)."""
    tonne_ug = parse_mass("1 tonne", MassUnit.KG)

    assert show_mass(tonne_ug, MassStyle.TON_100) == "1.10 ton"
    assert show_mass(tonne_ug, MassStyle.LB_10) == "2204.6 lb"


@pytest.mark.parametrize(
    ("text", "percent", "ratio"),
    [
        # common practice, no source; the figures by hand: 1/16 in in 12 in is 1 in 192
        ("1/16 in/ft", "0.521 %", "1:192"),
        ("1/8 in/ft", "1.042 %", "1:96"),
        ("1/4 in/ft", "2.083 %", "1:48"),
        ("0.06 in/ft", "0.500 %", "1:200"),
        ("1 in per 10 ft", "0.833 %", "1:120"),
        ("5 mm/m", "0.500 %", "1:200"),
    ],
)
def test_grades_of_the_trade(text: str, percent: str, ratio: str) -> None:
    """Inches per foot, percent and ratio of the same fall."""
    assert show_grade(parse_grade(text), GradeStyle.PERCENT_1000) == percent
    assert show_grade(parse_grade(text), GradeStyle.RATIO) == ratio


@pytest.mark.parametrize(
    ("text", "style", "feet_or_metres"),
    [
        # route stationing page of a survey course (jerrymahun.com): US stations of 100 ft, metric
        # ones of 1000 m and of 100 m for the same point
        ("12+34.5", StationStyle.US_100FT, "1234.5 ft"),
        ("1+256.02", StationStyle.METRIC_1000M, "1256.02 m"),
        ("12+56.02", StationStyle.METRIC_100M, "1256.02 m"),
        ("-1+45.67", StationStyle.US_100FT, "-145.67 ft"),
    ],
)
def test_stations_of_a_survey_course(text: str, style: StationStyle, feet_or_metres: str) -> None:
    """The same point in station and in plain distance."""
    plain_nm = parse_length(feet_or_metres, LengthUnit.M, signed=True)

    assert parse_station(text, style) == plain_nm


@pytest.mark.parametrize(
    ("feet", "inches"),
    [
        # Navy builders' text (constructionmanuals.tpub.com 14045, appendix I) brings decimals of a
        # foot to the nearest 1/16 in; the rows by hand: 0.01 x 192 = 1.92, 0.05 x 192 = 9.6 ...
        ("0.01", "1/8 in"),
        ("0.05", "5/8 in"),
        ("0.10", "1-3/16 in"),
        ("0.25", "3 in"),
        ("0.37", "4-7/16 in"),
        ("0.71", "8-1/2 in"),
        ("0.99", "11-7/8 in"),
    ],
)
def test_decimals_of_a_foot_to_sixteenths(feet: str, inches: str) -> None:
    """Hundredths of a foot read on a tape."""
    assert show_length(parse_length(feet, LengthUnit.FT), LengthStyle.IN_16) == inches


@pytest.mark.parametrize(
    ("metres", "shown"),
    # ASTM E29, rounding method: an exact half goes to the even figure (so Alberta ATT-70 too)
    [("1.245", "1.24 m"), ("1.255", "1.26 m"), ("1.2451", "1.25 m"), ("1.235", "1.24 m")],
)
def test_half_goes_to_the_even_figure(metres: str, shown: str) -> None:
    """Ties at the last place shown."""
    assert show_length(parse_length(metres, LengthUnit.M), LengthStyle.M_100) == shown


def test_rounding_once_not_twice() -> None:
    """98.4349 is 98.43; by way of 98.435 it would be 98.44 (rule: Michigan's standard rounding)."""
    nm = parse_length("98.4349", LengthUnit.FT)

    assert show_length(nm, LengthStyle.FT_1000) == "98.435 ft"
    assert show_length(nm, LengthStyle.FT_100) == "98.43 ft"


def test_loads_to_the_hundredth() -> None:
    """Michigan books cubic yards, tons and pounds to the hundredth (MDOT standard rounding)."""
    assert (
        show_volume(parse_volume("12.346", VolumeUnit.YD3), VolumeStyle.YD3_100) == "12.35 yd\u00b3"
    )
    assert show_mass(parse_mass("12.354", MassUnit.TON), MassStyle.TON_100) == "12.35 ton"
