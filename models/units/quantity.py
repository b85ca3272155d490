"""Reading and showing volumes and masses: a number or fraction with a unit."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from models.units.clean_text import TypedText
from models.units.number_text import (
    MIXED,
    NUMBER,
    read_decimal,
    read_mixed,
    refuse_sign,
    refuse_too_large,
    refuse_unread,
)
from models.units.rounding import round_half_even, show_decimal
from models.units.spec import UnitSpec

_QUANTITY = re.compile(
    rf"""(?P<sign>[+-])?\ *(?:{MIXED}|(?P<number>{NUMBER}))\ *(?P<unit>[a-z][a-z0-9^.\ ]*)?""",
    re.VERBOSE,
)


def read_quantity(typed: TypedText, unit: UnitSpec, units: Mapping[str, UnitSpec]) -> int:
    """Read a quantity in base units, rounded once to a whole one.

    A bare number is in ``unit``; ``units`` are those that may be written, by their spellings.

    Raises
    ------
    UnreadableError
        If it is not a number with a known unit.
    """
    found = _QUANTITY.fullmatch(typed.text)
    if not found:
        refuse_unread(typed)
    refuse_sign(typed, found, signed=False)
    if word := found["unit"]:
        own = units.get(" ".join(word.replace(".", " ").split()))
        if own is None:
            typed.refuse(f"'{word}' is not a unit that is read here", found.start("unit"))
        unit = own
    if found["number"]:
        count, scale = read_decimal(found["number"])
        return refuse_too_large(typed, round_half_even(count * unit.base, scale))
    if not unit.reads_fractions:
        typed.refuse("fractions are not read in metric units", found.start("over"))
    return refuse_too_large(typed, round_half_even(read_mixed(typed, found) * unit.base))


class QuantityFormat(NamedTuple):
    """How a quantity is written: in which unit, to how many decimal places."""

    unit: UnitSpec
    places: int


def show_quantity(size: int, shape: QuantityFormat, *, mark: bool, unit: bool) -> str:
    """Write base units in a shape, rounded once, ties to even."""
    scale = 10**shape.places
    per = shape.unit.base
    count = round_half_even(size * scale, per)
    exact = round_half_even(count * per, scale) == size
    name = f" {shape.unit.text}" if unit else ""
    return f"{'~' if mark and not exact else ''}{show_decimal(count, shape.places)}{name}"
