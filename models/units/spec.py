"""Table of the units of measure, a row each: size, spellings, usual decimals."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class UnitSpec:
    """A unit of measure: a row of the table.

    Parameters
    ----------
    symbol
        What it is called in code and in columns: ``yd3``.
    size
        Base units in one of it: nanometres, micrograms, picolitres and so on.
    words
        Spellings that are read, in lower case.
    forms
        Texts that a field in this unit reads, as examples for whoever typed another.
    decimals
        Decimal places of a figure in it, as crews usually write one.
    reads_fractions
        Whether ``1/2`` is read in it.
    printed
        How it is printed, where that is not its symbol: with a raised three.
    """

    symbol: str
    size: Fraction
    words: tuple[str, ...]
    forms: tuple[str, str, str] = ("", "", "")
    decimals: int = 2
    reads_fractions: bool = False
    printed: str = ""

    @property
    def base(self) -> int:
        """Whole base units in one unit; each unit of length, mass and volume has them whole."""
        return self.size.numerator // self.size.denominator

    @property
    def text(self) -> str:
        """The unit as it stands behind a figure."""
        return self.printed or self.symbol


FOOT_NM = 304_800_000
"""The international foot, never the survey foot, in nanometres."""
INCH_NM = FOOT_NM // 12
METRE_NM = 10**9
_POUND_UG = 453_592_370
_CUBIC_NM_PER_PL = 10**12


def _unit(symbol: str, size: Fraction | int, *words: str) -> UnitSpec:
    """Row of a unit that is only read."""
    return UnitSpec(symbol, Fraction(size), words)


def _cubed(short: str, *names: str) -> tuple[str, ...]:
    """Spellings of a cubed unit."""
    words = (f"{short}3", f"{short}^3")
    return words + tuple(f"{cubic} {name}" for cubic in ("cu", "cubic") for name in (short, *names))


LENGTHS = (
    UnitSpec(
        "in",
        Fraction(INCH_NM),
        ('"', "in", "in.", "inch", "inches"),
        ("8-1/2", "8.5 in", "216 mm"),
        reads_fractions=True,
    ),
    UnitSpec(
        "ft",
        Fraction(FOOT_NM),
        ("'", "ft", "ft.", "foot", "feet"),
        ("40", "5.43 ft", "2'3-1/2\""),
    ),
    UnitSpec(
        "mm",
        Fraction(METRE_NM, 1000),
        ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
        ("216", "21.6 cm", "8-1/2 in"),
    ),
    UnitSpec(
        "cm",
        Fraction(METRE_NM, 100),
        ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        ("21.6", "216 mm", "8-1/2 in"),
    ),
    UnitSpec(
        "m",
        Fraction(METRE_NM),
        ("m", "metre", "metres", "meter", "meters"),
        ("1.655", "1655 mm", "5.43 ft"),
    ),
)
"""Units of length, in nanometres."""

MASSES = (
    UnitSpec(
        "ton",
        Fraction(2000 * _POUND_UG),
        ("ton", "tons", "short ton", "short tons", "us ton", "us tons"),
        ("12.5", "25000 lb", "11.34 tonne"),
        reads_fractions=True,
    ),
    UnitSpec(
        "t",
        Fraction(10**12),
        ("t", "tonne", "tonnes", "metric ton", "metric tons"),
        ("11.34", "11340 kg", "12.5 ton"),
    ),
    UnitSpec(
        "lb",
        Fraction(_POUND_UG),
        ("lb", "lbs", "pound", "pounds"),
        ("93", "93.5 lb", "42 kg"),
        decimals=1,
        reads_fractions=True,
    ),
    UnitSpec(
        "kg",
        Fraction(10**9),
        ("kg", "kgs", "kilogram", "kilograms"),
        ("42", "42.5 kg", "93 lb"),
        decimals=1,
    ),
)
"""Units of mass, in micrograms; a ton is the short ton, a t the metric one."""

VOLUMES = (
    UnitSpec(
        "yd3",
        Fraction((3 * FOOT_NM) ** 3, _CUBIC_NM_PER_PL),
        # a yard of sand is a cubic yard to everybody who buys sand
        (*_cubed("yd", "yds", "yard", "yards"), "cy", "cyd", "yd", "yds", "yard", "yards"),
        ("12.5", "2-1/2 yd3", "9.6 m3"),
        reads_fractions=True,
        printed="yd\u00b3",
    ),
    UnitSpec(
        "ft3",
        Fraction(FOOT_NM**3, _CUBIC_NM_PER_PL),
        (*_cubed("ft", "foot", "feet"), "cf", "cft"),
        ("27", "6.5 ft3", "0.25 yd3"),
        reads_fractions=True,
        printed="ft\u00b3",
    ),
    UnitSpec(
        "m3",
        Fraction(METRE_NM**3, _CUBIC_NM_PER_PL),
        _cubed("m", "metre", "metres", "meter", "meters"),
        ("9.6", "0.25 m3", "12.5 yd3"),
        printed="m\u00b3",
    ),
    UnitSpec(
        "L",
        Fraction((METRE_NM // 10) ** 3, _CUBIC_NM_PER_PL),
        ("l", "litre", "litres", "liter", "liters"),
        ("250", "19.5 L", "5 gal"),
    ),
    UnitSpec(
        "gal",
        Fraction(231 * INCH_NM**3, _CUBIC_NM_PER_PL),
        ("gal", "gals", "gallon", "gallons"),
        ("5", "2-1/2 gal", "19.5 L"),
        reads_fractions=True,
    ),
)
"""Units of volume, in picolitres; the gallon is the US gallon of 231 cubic inches."""

SHARES = (
    _unit("%", 10, "%", "percent", "per cent"),
    _unit("\u2030", 1, "\u2030"),
)
"""Units of a share, in thousandths."""

_INCH_UM, _FOOT_UM = INCH_NM // 1000, FOOT_NM // 1000
WATER_RATES = (
    _unit("in/h", _INCH_UM, "in/h", "in/hr"),
    _unit("ft/day", Fraction(_FOOT_UM, 24), "ft/day"),
    _unit("mm/h", 1000, "mm/h", "mm/hr"),
    _unit("cm/h", 10_000, "cm/h"),
    _unit("m/day", Fraction(10**6, 24), "m/day"),
    _unit("m/s", 3600 * 10**6, "m/s"),
    _unit("mm/s", 3600 * 1000, "mm/s"),
)
"""Units of a depth of water in time, in micrometres an hour."""

_GALLON_UL = Fraction(231 * INCH_NM**3, 10**18)
_FOOT3_UL = Fraction(FOOT_NM**3, 10**18)
FLOWS = (
    _unit("L/s", 10**6, "l/s"),
    _unit("gal/min", _GALLON_UL / 60, "gal/min", "gpm"),
    _unit("m3/h", Fraction(10**9, 3600), "m3/h"),
    _unit("ft3/s", _FOOT3_UL, "ft3/s", "cfs"),
)
"""Units of flow, in microlitres a second."""

_FT2_MM2 = Fraction(FOOT_NM, 10**6) ** 2
AREAS = (
    _unit("ft2", _FT2_MM2, "ft2", "sq ft"),
    _unit("yd2", 9 * _FT2_MM2, "yd2"),
    _unit("acre", 43_560 * _FT2_MM2, "acre", "acres"),
    _unit("m2", 10**6, "m2"),
    _unit("ha", 10**10, "ha"),
)
"""Units of area, in square millimetres."""

_UG_PER_PL_G_PER_M3 = 10**9
"""Grams a cubic metre in one microgram a picolitre."""
_FT3_PL = Fraction(FOOT_NM**3, _CUBIC_NM_PER_PL)
DENSITIES = (
    _unit("lb/ft3", _POUND_UG * _UG_PER_PL_G_PER_M3 / _FT3_PL, "lb/ft3"),
    _unit("lb/yd3", _POUND_UG * _UG_PER_PL_G_PER_M3 / _FT3_PL / 27, "lb/yd3"),
    _unit("ton/yd3", 2000 * _POUND_UG * _UG_PER_PL_G_PER_M3 / _FT3_PL / 27, "ton/yd3"),
    _unit("kg/m3", 1000, "kg/m3"),
    _unit("g/cm3", 10**6, "g/cm3"),
    _unit("t/m3", 10**6, "t/m3"),
)
"""Units of bulk density, in grams a cubic metre."""


def by_word(units: Iterable[UnitSpec]) -> Mapping[str, UnitSpec]:
    """Units by every spelling that is read."""
    return {word: unit for unit in units for word in unit.words}
