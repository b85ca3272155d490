"""Masses as whole micrograms: read and written as crews write them.

``ton`` is the short ton of 2000 lb; ``tonne``, ``metric ton`` and ``t`` are 1000 kg.
A lone capital ``T`` is refused, since tickets use it for either. Short tons to
0.0001 and tenths of a pound are whole in micrograms; a finer figure (0.01 lb) is
rounded to the nearest microgram, ties to even, once, when it is read.
"""

from __future__ import annotations

import re
from enum import StrEnum

from models.units.clean_text import TypedText
from models.units.quantity import QuantityFormat, read_quantity, show_quantity
from models.units.spec import MASSES, UnitSpec, by_word


class MassUnit(StrEnum):
    """A unit that masses are typed in."""

    TON = "ton"
    TONNE = "t"
    LB = "lb"
    KG = "kg"


MASS_UNITS: dict[MassUnit, UnitSpec] = {MassUnit(unit.symbol): unit for unit in MASSES}
UG_PER: dict[MassUnit, int] = {name: unit.base for name, unit in MASS_UNITS.items()}
"""Micrograms in one unit."""

_BY_WORD = by_word(MASSES)
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
    typed = TypedText(text, "a mass", MASS_UNITS[unit].forms)
    if _LONE_CAPITAL.search(text):
        typed.refuse("T may be a short or a metric ton; write ton or tonne", len(typed.text) - 1)
    return read_quantity(typed, MASS_UNITS[unit], _BY_WORD)


class MassStyle(StrEnum):
    """Style that a mass is written in: the unit and the last figure."""

    TON_10 = "ton_10"
    TON_100 = "ton_100"
    TONNE_10 = "tonne_10"
    TONNE_100 = "tonne_100"
    TONNE_1000 = "tonne_1000"
    LB_1 = "lb_1"
    LB_10 = "lb_10"
    KG_1 = "kg_1"
    KG_10 = "kg_10"


_SHAPES: dict[MassStyle, QuantityFormat] = {
    MassStyle.TON_10: QuantityFormat(MASS_UNITS[MassUnit.TON], 1),
    MassStyle.TON_100: QuantityFormat(MASS_UNITS[MassUnit.TON], 2),
    MassStyle.TONNE_10: QuantityFormat(MASS_UNITS[MassUnit.TONNE], 1),
    MassStyle.TONNE_100: QuantityFormat(MASS_UNITS[MassUnit.TONNE], 2),
    MassStyle.TONNE_1000: QuantityFormat(MASS_UNITS[MassUnit.TONNE], 3),
    MassStyle.LB_1: QuantityFormat(MASS_UNITS[MassUnit.LB], 0),
    MassStyle.LB_10: QuantityFormat(MASS_UNITS[MassUnit.LB], 1),
    MassStyle.KG_1: QuantityFormat(MASS_UNITS[MassUnit.KG], 0),
    MassStyle.KG_10: QuantityFormat(MASS_UNITS[MassUnit.KG], 1),
}


def show_mass(ug: int, style: MassStyle, *, mark: bool = False, unit: bool = True) -> str:
    """Write a mass in a style, rounded once, ties to even.

    Examples
    --------
    >>> show_mass(907_184_740_000, MassStyle.TON_100), show_mass(907_184_740_000, MassStyle.LB_1)
    ('1.00 ton', '2000 lb')
    """
    return show_quantity(ug, _SHAPES[style], mark=mark, unit=unit)
