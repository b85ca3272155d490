"""What volumes and masses share: a number, perhaps a fraction, and a unit word."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple, TypeVar

from models.units.clean_text import Typed
from models.units.number_text import (
    MIXED,
    NUMBER,
    explain,
    read_decimal,
    read_mixed,
    refuse_sign,
    refuse_too_large,
)
from models.units.rounding import round_half_even, show_decimal

Unit = TypeVar("Unit")

_QUANTITY = re.compile(
    rf"""(?P<sign>[+-])?\ *(?:{MIXED}|(?P<number>{NUMBER}))\ *(?P<unit>[a-z][a-z0-9^.\ ]*)?""",
    re.VERBOSE,
)


def read_quantity(
    typed: Typed, unit: Unit, words: Mapping[str, Unit], per: Mapping[Unit, int], halved: set[Unit]
) -> int:
    """Read a quantity in base units, rounded once to a whole one; fractions for ``halved`` only.

    Raises
    ------
    UnreadableError
        If it is not a number with a known unit.
    """
    found = _QUANTITY.fullmatch(typed.text)
    if not found:
        explain(typed)
    refuse_sign(typed, found, signed=False)
    if word := found["unit"]:
        own = words.get(" ".join(word.replace(".", " ").split()))
        if own is None:
            typed.refuse(f"'{word}' is not a unit that is read here", found.start("unit"))
        unit = own
    if found["number"]:
        count, scale = read_decimal(found["number"])
        return refuse_too_large(typed, round_half_even(count * per[unit], scale))
    if unit not in halved:
        typed.refuse("fractions are not read in metric units", found.start("over"))
    return refuse_too_large(typed, round_half_even(read_mixed(typed, found) * per[unit]))


class Shape(NamedTuple):
    """Of a style: base units in one unit, decimal places, and the unit as shown."""

    per: int
    places: int
    name: str


def show_quantity(size: int, shape: Shape, *, mark: bool, unit: bool) -> str:
    """Write base units in a shape, rounded once, ties to even."""
    scale = 10**shape.places
    count = round_half_even(size * scale, shape.per)
    exact = round_half_even(count * shape.per, scale) == size
    name = f" {shape.name}" if unit else ""
    return f"{'~' if mark and not exact else ''}{show_decimal(count, shape.places)}{name}"
