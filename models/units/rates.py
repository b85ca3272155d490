"""Shares, areas, densities and rates of water: a number with the unit it can't do without."""

from __future__ import annotations

import re
from fractions import Fraction

from models.units.clean_text import TypedText
from models.units.number_text import (
    NUMBER,
    read_decimal,
    refuse_sign,
    refuse_too_large,
    refuse_unread,
)
from models.units.rounding import round_half_even
from models.units.spec import AREAS, DENSITIES, FLOWS, SHARES, WATER_RATES, UnitSpec, by_word

_AMOUNT = re.compile(
    rf"(?P<sign>[+-])? *(?P<number>{NUMBER}) *(?P<unit>[a-z%\u2030][a-z0-9/^. ]*)?"
)


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
    return _read(TypedText(text, "a share", ("10 %", "7.5 %", "12 percent")), SHARES)


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
    return _read(
        TypedText(text, "a rate of water", ("12 in/h", "300 mm/h", "24 ft/day")), WATER_RATES
    )


def parse_flow(text: str) -> int:
    """Read a flow as whole microlitres a second: ``5 L/s``, ``80 gal/min``.

    Raises
    ------
    UnreadableError
        If it is no flow with its unit.

    Examples
    --------
    >>> parse_flow("5 L/s")
    5000000
    """
    return _read(TypedText(text, "a flow", ("5 L/s", "80 gal/min", "18 m3/h")), FLOWS)


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
    return _read(TypedText(text, "an area", ("6400 ft2", "0.25 acre", "600 m2")), AREAS)


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
    return _read(TypedText(text, "a density", ("98 lb/ft3", "1570 kg/m3", "1.57 t/m3")), DENSITIES)


def _read(typed: TypedText, units: tuple[UnitSpec, ...]) -> int:
    """A number with one of the units, in whole base units, ties to even."""
    found = _AMOUNT.fullmatch(typed.text)
    if found is None:
        refuse_unread(typed)
    refuse_sign(typed, found, signed=False)
    unit = found["unit"]
    if not unit:
        typed.refuse("its unit is missing", len(typed.text))
    own = by_word(units).get(unit.replace(" / ", "/").strip())
    if own is None:
        typed.refuse(f"'{unit}' is not a unit that is read here", found.start("unit"))
    amount = Fraction(*read_decimal(found["number"])) * own.size
    return refuse_too_large(typed, round_half_even(amount.numerator, amount.denominator))
