"""Masses as whole micrograms.

``ton`` is the short ton of 2000 lb; ``tonne``, ``metric ton`` and ``t`` are 1000 kg.
A lone capital ``T`` is refused, since tickets use it for either. Short tons to
0.0001 and tenths of a pound are whole in micrograms; a finer figure (0.01 lb) is
rounded to the nearest microgram, ties to even, once, when it is read.
"""

from __future__ import annotations

import re
from enum import StrEnum

from models.units.clean_text import Typed
from models.units.quantity import Shape, read_quantity, show_quantity


class MassUnit(StrEnum):
    """A unit that masses are typed in."""

    TON = "ton"
    TONNE = "t"
    LB = "lb"
    KG = "kg"


UG_PER: dict[MassUnit, int] = {
    MassUnit.TON: 907_184_740_000,
    MassUnit.TONNE: 1_000_000_000_000,
    MassUnit.LB: 453_592_370,
    MassUnit.KG: 1_000_000_000,
}
"""Micrograms in one unit."""

_WORDS: dict[str, MassUnit] = {
    **dict.fromkeys(("ton", "tons", "short ton", "short tons", "us ton", "us tons"), MassUnit.TON),
    **dict.fromkeys(("t", "tonne", "tonnes", "metric ton", "metric tons"), MassUnit.TONNE),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), MassUnit.LB),
    **dict.fromkeys(("kg", "kgs", "kilogram", "kilograms"), MassUnit.KG),
}
_HALVED = {MassUnit.TON, MassUnit.LB}
MASS_FORMS: dict[MassUnit, tuple[str, str, str]] = {
    MassUnit.TON: ("12.5", "25000 lb", "11.34 tonne"),
    MassUnit.TONNE: ("11.34", "11340 kg", "12.5 ton"),
    MassUnit.LB: ("93", "93.5 lb", "42 kg"),
    MassUnit.KG: ("42", "42.5 kg", "93 lb"),
}
_LONE_CAPITAL = re.compile(r"[\d.]\s*(T)\.?\s*$")


def parse_mass(text: str, unit: MassUnit) -> int:
    """Read a mass in micrograms; a bare number is in ``unit``, a ton is 2000 lb, a t is metric.

    Raises
    ------
    UnreadableError
        If it is not a mass.

    Examples
    --------
    >>> parse_mass("1 ton", MassUnit.KG) == parse_mass("2000 lb", MassUnit.KG)
    True
    """
    typed = Typed(text, "a mass", MASS_FORMS[unit])
    if _LONE_CAPITAL.search(text):
        typed.refuse("T may be a short or a metric ton; write ton or tonne", len(typed.text) - 1)
    return read_quantity(typed, unit, _WORDS, UG_PER, _HALVED)


class MassStyle(StrEnum):
    """How a mass is shown: the unit and the last figure."""

    TON_10 = "ton_10"
    TON_100 = "ton_100"
    TONNE_10 = "tonne_10"
    TONNE_100 = "tonne_100"
    TONNE_1000 = "tonne_1000"
    LB_1 = "lb_1"
    LB_10 = "lb_10"
    KG_1 = "kg_1"
    KG_10 = "kg_10"


_SHAPES: dict[MassStyle, Shape] = {
    MassStyle.TON_10: Shape(UG_PER[MassUnit.TON], 1, "ton"),
    MassStyle.TON_100: Shape(UG_PER[MassUnit.TON], 2, "ton"),
    MassStyle.TONNE_10: Shape(UG_PER[MassUnit.TONNE], 1, "t"),
    MassStyle.TONNE_100: Shape(UG_PER[MassUnit.TONNE], 2, "t"),
    MassStyle.TONNE_1000: Shape(UG_PER[MassUnit.TONNE], 3, "t"),
    MassStyle.LB_1: Shape(UG_PER[MassUnit.LB], 0, "lb"),
    MassStyle.LB_10: Shape(UG_PER[MassUnit.LB], 1, "lb"),
    MassStyle.KG_1: Shape(UG_PER[MassUnit.KG], 0, "kg"),
    MassStyle.KG_10: Shape(UG_PER[MassUnit.KG], 1, "kg"),
}


def show_mass(ug: int, style: MassStyle, *, mark: bool = False, unit: bool = True) -> str:
    """Write a mass in a style, rounded once, ties to even.

    Examples
    --------
    >>> show_mass(907_184_740_000, MassStyle.TON_100), show_mass(907_184_740_000, MassStyle.LB_1)
    ('1.00 ton', '2000 lb')
    """
    return show_quantity(ug, _SHAPES[style], mark=mark, unit=unit)
