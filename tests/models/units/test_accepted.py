"""What crews write is read, and as what."""

from __future__ import annotations

from fractions import Fraction

import pytest

from models.units import (
    ClockUnit,
    LengthUnit,
    MassUnit,
    StationStyle,
    VolumeUnit,
    parse_count,
    parse_duration,
    parse_grade,
    parse_length,
    parse_mass,
    parse_station,
    parse_time_of_day,
    parse_volume,
)

IN_64_NM = 396_875
FT_1000_NM = 304_800
MM_NM = 1_000_000

INCHES = [
    ("9", 576),
    ("8-1/2", 544),
    ('8 1/2"', 544),
    ("8  1/2", 544),
    ("8\u00bd", 544),
    ("8 \u00bd in", 544),
    ("\u215c", 24),
    ("8.5", 544),
    ("8.5 in", 544),
    ("8.5 inches", 544),
    ("8.5IN.", 544),
    (".5", 32),
    ("3/16", 12),
    ("63/64", 63),
    ("08-02/4", 544),
    ("0", 0),
    ("2'3-1/2\"", 1760),
    ("2' 3 1/2\"", 1760),
    ("2'-3 1/2", 1760),
    ("2' - 3-1/2\"", 1760),
    ("2'3.5\"", 1760),
    ("2 ft 3 in", 1728),
    ("2ft 3", 1728),
    ("2'", 1536),
    ("2'0\"", 1536),
    ("2'11-63/64\"", 2303),
    ("27.5in", 1760),
    ("2.5'", 1920),
    ("2.5 feet", 1920),
    # look-alikes that phones and word processors put in
    ("2\u20193\u00bd\u201d", 1760),
    ("2\u2032 3 1/2\u2033", 1760),
    ("8 1/2''", 544),
    ("8\u20131/2", 544),
    ("8-1\u20442", 544),
    ("8\u00a01/2\u00a0in", 544),
    ("\t8.5 in  ", 544),
]
METRIC = [
    ("178", 178_000),
    ("178 mm", 178_000),
    ("17.8cm", 178_000),
    ("0.178m", 178_000),
    ("0.178 metres", 178_000),
    ("216.4 MM", 216_400),
    ("8-1/2 in", 215_900),
    ("0.71 ft", 216_408),
]


@pytest.mark.parametrize(("text", "sixty_fourths"), INCHES)
def test_length_in_an_inch_field(text: str, sixty_fourths: int) -> None:
    """Every spelling of inches and feet gives whole 64ths."""
    assert parse_length(text, LengthUnit.IN) == sixty_fourths * IN_64_NM


@pytest.mark.parametrize(("text", "micrometres"), METRIC)
def test_length_in_a_millimetre_field(text: str, micrometres: int) -> None:
    """A written unit wins over the field's, which only a bare number takes."""
    assert parse_length(text, LengthUnit.MM) == micrometres * 1000


@pytest.mark.parametrize("unit", LengthUnit)
def test_bare_number_takes_the_unit_of_the_field(unit: LengthUnit) -> None:
    """A bare number reads as if the unit had been written."""
    assert parse_length("3", unit) == parse_length(f"3 {unit}", LengthUnit.IN)


@pytest.mark.parametrize(
    ("text", "thousandths"),
    [
        ("-0.02", -20),
        ("+0.02", 20),
        ("\u22120.02 ft", -20),
        ("- 0.02", -20),
        ("-1'6\"", -1500),
        ("-1-1/2 in", -125),
        ("5.43", 5430),
        ("-0", 0),
    ],
)
def test_signed_field_takes_a_sign_for_all_that_follows(text: str, thousandths: int) -> None:
    """The sign of a signed length holds for feet, inches and fraction together."""
    assert parse_length(text, LengthUnit.FT, signed=True) == thousandths * FT_1000_NM


@pytest.mark.parametrize(
    ("text", "style", "thousandths"),
    [
        ("1+25.5", StationStyle.US_100FT, 125_500),
        ("12+34.5", StationStyle.US_100FT, 1_234_500),
        ("0+00", StationStyle.US_100FT, 0),
        ("sta 3+07.25", StationStyle.US_100FT, 307_250),
        ("STA. 3+07.25", StationStyle.US_100FT, 307_250),
        ("Station 3 + 07.25", StationStyle.US_100FT, 307_250),
        ("-1+45.67", StationStyle.US_100FT, -145_670),
        ("\u22121+45.67", StationStyle.US_100FT, -145_670),
        ("125.5", StationStyle.US_100FT, 125_500),
        ("125'6\"", StationStyle.US_100FT, 125_500),
        ("-20", StationStyle.US_100FT, -20_000),
        ("38.1 m", StationStyle.US_100FT, 125_000),
        ("0+125.5", StationStyle.METRIC_1000M, 125_500),
        ("1+250", StationStyle.METRIC_1000M, 1_250_000),
        ("125.5", StationStyle.METRIC_1000M, 125_500),
        ("12+56.02", StationStyle.METRIC_100M, 1_256_020),
    ],
)
def test_station(text: str, style: StationStyle, thousandths: int) -> None:
    """A station is a distance from zero, in the job's own spacing."""
    unit_nm = FT_1000_NM if style is StationStyle.US_100FT else MM_NM

    assert parse_station(text, style) == thousandths * unit_nm


@pytest.mark.parametrize(
    ("text", "grade"),
    [
        *((text, Fraction(1, 200)) for text in ("0.5", "0.5%", "0.50 %", ".5 percent", "+0.5 %")),
        *((text, Fraction(1, 200)) for text in ("1:200", "1 : 200", "1 in 200", "1\u2236200")),
        *((text, Fraction(1, 200)) for text in ("5\u2030", "5 mm/m", "0.5 cm per m")),
        *((text, Fraction(1, 200)) for text in ("0.06 in per ft", '0.06"/ft', "0.06 in/ft")),
        *((text, Fraction(1, 200)) for text in ("0.005 ft/ft", "0.5 ft/100 ft", "0.5' per 100'")),
        ("1 in per 10 ft", Fraction(1, 120)),
        ("1/16 in/ft", Fraction(1, 192)),
        ("\u215b in/ft", Fraction(1, 96)),
        ("1-1/4 in/ft", Fraction(5, 48)),
        ("1%", Fraction(1, 100)),
        ("1\uff05", Fraction(1, 100)),
        ("1/2 %", Fraction(1, 200)),
        ("\u00bd%", Fraction(1, 200)),
        ("-1-1/2 %", Fraction(-3, 200)),
        ("-0.5 %", Fraction(-1, 200)),
        ("\u22121:200", Fraction(-1, 200)),
        ("-1/8 in/ft", Fraction(-1, 96)),
        ("0", Fraction(0)),
        ("level", Fraction(0)),
        ("100 %", Fraction(1)),
    ],
)
def test_grade(text: str, grade: Fraction) -> None:
    """Every form of a grade is the same exact fraction."""
    assert parse_grade(text) == grade


@pytest.mark.parametrize(
    ("text", "unit", "millilitres"),
    [
        *((text, VolumeUnit.M3, 9_600_000) for text in ("9.6", "9.6 m3", "9.6 m\u00b3", "9600 L")),
        *((text, VolumeUnit.YD3, 9_600_000) for text in ("9.6 cu m", "9.6 cubic metres")),
        ("19.5 litres", VolumeUnit.GAL, 19_500),
    ],
)
def test_metric_volume(text: str, unit: VolumeUnit, millilitres: int) -> None:
    """Metric volumes are whole picolitres."""
    assert parse_volume(text, unit) == millilitres * 10**9


@pytest.mark.parametrize(
    ("text", "cubic_inches"),
    [
        *((text, 46_656) for text in ("1", "1 yd3", "1 yd\u00b3", "1 cu. yd.", "1 CY", "1 yard")),
        *((text, 46_656) for text in ("27 ft3", "27 cf", "27 cubic feet", "27 ft^3")),
        ("2-1/2", 116_640),
        ("\u00bd yd", 23_328),
        ("5 gal", 1155),
    ],
)
def test_us_volume(text: str, cubic_inches: int) -> None:
    """US volumes are whole cubic inches here, each 16,387,064,000 pl."""
    assert parse_volume(text, VolumeUnit.YD3) == cubic_inches * 16_387_064_000


@pytest.mark.parametrize(
    ("text", "unit", "micrograms"),
    [
        *((t, MassUnit.TON, 907_184_740_000) for t in ("1", "1 ton", "1 short ton", "2000 lb")),
        *((t, MassUnit.TON, 10**12) for t in ("1 t", "1 tonne", "1 metric ton", "1000 kg")),
        ("1/2 ton", MassUnit.KG, 453_592_370_000),
        ("93.5", MassUnit.KG, 93_500_000_000),
        ("0.5 lbs.", MassUnit.KG, 226_796_185),
    ],
)
def test_mass(text: str, unit: MassUnit, micrograms: int) -> None:
    """A ton is 2000 lb, a tonne or t is 1000 kg."""
    assert parse_mass(text, unit) == micrograms


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        *(
            (text, 425)
            for text in ("7:05", "07:05", "0705", "705", "7:05 am", "7:05AM", "7:05 a.m.")
        ),
        ("7 am", 420),
        ("7:05 pm", 1145),
        ("12 am", 0),
        ("12:00 pm", 720),
        ("12:30 a", 30),
        ("00:00", 0),
        ("23:59", 1439),
    ],
)
def test_time_of_day(text: str, minutes: int) -> None:
    """Clock times are minutes from midnight."""
    assert parse_time_of_day(text) == minutes


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        *((text, 75) for text in ("75", "75 min", "75m", "1:15", "1 h 15 min", "1h15", "1.25 hrs")),
        ("1.5 h", 90),
        ("8 hours", 480),
        ("0", 0),
    ],
)
def test_duration(text: str, minutes: int) -> None:
    """Durations are whole minutes."""
    assert parse_duration(text) == minutes


def test_bare_duration_takes_the_unit_of_the_field() -> None:
    """A field of hours reads a bare number as hours, a written unit wins."""
    assert parse_duration("8.5", bare=ClockUnit.H) == 510
    assert parse_duration("30 min", bare=ClockUnit.H) == 30


@pytest.mark.parametrize(("text", "count"), [("0", 0), ("12", 12), (" 007 ", 7)])
def test_count(text: str, count: int) -> None:
    """A count is digits."""
    assert parse_count(text) == count
