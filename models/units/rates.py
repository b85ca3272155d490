"""Shares, areas, densities and rates of water: a number with the unit it can't do without."""

from __future__ import annotations

import re
from fractions import Fraction

from models.units.clean_text import Typed
from models.units.number_text import NUMBER, explain, read_decimal, refuse_sign, refuse_too_large
from models.units.rounding import round_half_even

_AMOUNT = re.compile(
    rf"(?P<sign>[+-])? *(?P<number>{NUMBER}) *(?P<unit>[a-z%\u2030][a-z0-9/^. ]*)?"
)

_UG_PER_LB = Fraction(453_592_370)
_PL_PER_FT3 = 28_316_846_592_000

PERMILLE: dict[str, Fraction] = {
    "%": Fraction(10),
    "percent": Fraction(10),
    "per cent": Fraction(10),
    "\u2030": Fraction(1),
}
UM_PER_H: dict[str, Fraction] = {
    "in/h": Fraction(25_400),
    "in/hr": Fraction(25_400),
    "ft/day": Fraction(304_800, 24),
    "mm/h": Fraction(1000),
    "mm/hr": Fraction(1000),
    "cm/h": Fraction(10_000),
    "m/day": Fraction(1_000_000, 24),
    "m/s": Fraction(3_600_000_000),
    "mm/s": Fraction(3_600_000),
}
MM2: dict[str, Fraction] = {
    "ft2": Fraction(2_322_576, 25),
    "sq ft": Fraction(2_322_576, 25),
    "yd2": Fraction(20_903_184, 25),
    "acre": Fraction(101_171_410_560_000, 25_000),
    "acres": Fraction(101_171_410_560_000, 25_000),
    "m2": Fraction(1_000_000),
    "ha": Fraction(10_000_000_000),
}
G_PER_M3: dict[str, Fraction] = {
    "lb/ft3": _UG_PER_LB * 10**9 / _PL_PER_FT3,
    "lb/yd3": _UG_PER_LB * 10**9 / _PL_PER_FT3 / 27,
    "ton/yd3": _UG_PER_LB * 2000 * 10**9 / _PL_PER_FT3 / 27,
    "kg/m3": Fraction(1000),
    "g/cm3": Fraction(1_000_000),
    "t/m3": Fraction(1_000_000),
}


def parse_share(text: str) -> int:
    """Read a share as whole thousandths: ``12 %``, ``7.5 %``.

    Raises
    ------
    UnreadableError
        If it is no share with its unit.

    Examples
    --------
    >>> parse_share("7.5 %")
    75
    """
    return _read(Typed(text, "a share", ("10 %", "7.5 %", "12 percent")), PERMILLE)


def parse_water_rate(text: str) -> int:
    """Read a depth of water in time as whole micrometres an hour: ``12 in/h``, ``300 mm/h``.

    Raises
    ------
    UnreadableError
        If it is no rate with its unit.

    Examples
    --------
    >>> parse_water_rate("12 in/h")
    304800
    """
    return _read(Typed(text, "a rate of water", ("12 in/h", "300 mm/h", "24 ft/day")), UM_PER_H)


def parse_area(text: str) -> int:
    """Read an area as whole square millimetres: ``6400 ft2``, ``0.25 acre``, ``600 m2``.

    Raises
    ------
    UnreadableError
        If it is no area with its unit.

    Examples
    --------
    >>> parse_area("1 acre"), parse_area("100 ft2")
    (4046856422, 9290304)
    """
    return _read(Typed(text, "an area", ("6400 ft2", "0.25 acre", "600 m2")), MM2)


def parse_density(text: str) -> int:
    """Read a bulk density as whole grams a cubic metre: ``98 lb/ft3``, ``1.57 t/m3``.

    Raises
    ------
    UnreadableError
        If it is no density with its unit.

    Examples
    --------
    >>> parse_density("1.57 t/m3"), parse_density("98 lb/ft3")
    (1570000, 1569809)
    """
    return _read(Typed(text, "a density", ("98 lb/ft3", "1570 kg/m3", "1.57 t/m3")), G_PER_M3)


def _read(typed: Typed, per: dict[str, Fraction]) -> int:
    """A number with one of the units, in whole base units, ties to even."""
    found = _AMOUNT.fullmatch(typed.text)
    if found is None:
        explain(typed)
    refuse_sign(typed, found, signed=False)
    unit = found["unit"]
    if not unit:
        typed.refuse("its unit is missing", len(typed.text))
    size = per.get(unit.replace(" / ", "/").strip())
    if size is None:
        typed.refuse(f"'{unit}' is not a unit that is read here", found.start("unit"))
    amount = Fraction(*read_decimal(found["number"])) * size
    return refuse_too_large(typed, round_half_even(amount.numerator, amount.denominator))
