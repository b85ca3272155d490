"""Volumes as whole picolitres: read and written as crews write them.

Cubic yards to the thousandth, cubic feet, litres, US gallons and cubic metres are
whole in picolitres. A finer figure (0.0001 yd3) is rounded to the nearest
picolitre, ties to even, once, when it is read.
"""

from __future__ import annotations

from enum import StrEnum

from models.units.clean_text import TypedText
from models.units.quantity import QuantityFormat, read_quantity, show_quantity
from models.units.spec import VOLUMES, UnitSpec, by_word


class VolumeUnit(StrEnum):
    """A unit that volumes are typed in; the gallon is the US gallon of 231 cubic inches."""

    YD3 = "yd3"
    FT3 = "ft3"
    M3 = "m3"
    L = "L"
    GAL = "gal"


VOLUME_UNITS: dict[VolumeUnit, UnitSpec] = {VolumeUnit(unit.symbol): unit for unit in VOLUMES}
PL_PER: dict[VolumeUnit, int] = {name: unit.base for name, unit in VOLUME_UNITS.items()}
"""Picolitres in one unit."""

_BY_WORD = by_word(VOLUMES)


def parse_volume(text: str, unit: VolumeUnit) -> int:
    """Read a volume in picolitres; a bare number is in ``unit``, a yard is a cubic yard.

    Raises
    ------
    UnreadableError
        If it is not a volume.

    Examples
    --------
    >>> parse_volume("1 yd3", VolumeUnit.M3) == parse_volume("27", VolumeUnit.FT3)
    True
    """
    typed = TypedText(text, "a volume", VOLUME_UNITS[unit].forms)
    return read_quantity(typed, VOLUME_UNITS[unit], _BY_WORD)


class VolumeStyle(StrEnum):
    """Style that a volume is written in: the unit and the last figure."""

    YD3_10 = "yd3_10"
    YD3_100 = "yd3_100"
    YD3_1000 = "yd3_1000"
    FT3_1 = "ft3_1"
    FT3_10 = "ft3_10"
    FT3_100 = "ft3_100"
    M3_10 = "m3_10"
    M3_100 = "m3_100"
    M3_1000 = "m3_1000"
    L_1 = "l_1"
    L_10 = "l_10"
    GAL_1 = "gal_1"
    GAL_10 = "gal_10"


_SHAPES: dict[VolumeStyle, QuantityFormat] = {
    VolumeStyle.YD3_10: QuantityFormat(VOLUME_UNITS[VolumeUnit.YD3], 1),
    VolumeStyle.YD3_100: QuantityFormat(VOLUME_UNITS[VolumeUnit.YD3], 2),
    VolumeStyle.YD3_1000: QuantityFormat(VOLUME_UNITS[VolumeUnit.YD3], 3),
    VolumeStyle.FT3_1: QuantityFormat(VOLUME_UNITS[VolumeUnit.FT3], 0),
    VolumeStyle.FT3_10: QuantityFormat(VOLUME_UNITS[VolumeUnit.FT3], 1),
    VolumeStyle.FT3_100: QuantityFormat(VOLUME_UNITS[VolumeUnit.FT3], 2),
    VolumeStyle.M3_10: QuantityFormat(VOLUME_UNITS[VolumeUnit.M3], 1),
    VolumeStyle.M3_100: QuantityFormat(VOLUME_UNITS[VolumeUnit.M3], 2),
    VolumeStyle.M3_1000: QuantityFormat(VOLUME_UNITS[VolumeUnit.M3], 3),
    VolumeStyle.L_1: QuantityFormat(VOLUME_UNITS[VolumeUnit.L], 0),
    VolumeStyle.L_10: QuantityFormat(VOLUME_UNITS[VolumeUnit.L], 1),
    VolumeStyle.GAL_1: QuantityFormat(VOLUME_UNITS[VolumeUnit.GAL], 0),
    VolumeStyle.GAL_10: QuantityFormat(VOLUME_UNITS[VolumeUnit.GAL], 1),
}


def show_volume(pl: int, style: VolumeStyle, *, mark: bool = False, unit: bool = True) -> str:
    """Write a volume in a style, rounded once, ties to even.

    Examples
    --------
    >>> show_volume(9_600_000_000_000_000, VolumeStyle.M3_100)
    '9.60 m³'
    """
    return show_quantity(pl, _SHAPES[style], mark=mark, unit=unit)
