"""Volumes as whole picolitres.

Cubic yards to the thousandth, cubic feet, litres, US gallons and cubic metres are
whole in picolitres. A finer figure (0.0001 yd3) is rounded to the nearest
picolitre, ties to even, once, when it is read.
"""

from __future__ import annotations

from enum import StrEnum

from models.units.clean_text import Typed
from models.units.quantity import Shape, read_quantity, show_quantity


class VolumeUnit(StrEnum):
    """A unit that volumes are typed in; the gallon is the US gallon of 231 cubic inches."""

    YD3 = "yd3"
    FT3 = "ft3"
    M3 = "m3"
    L = "L"
    GAL = "gal"


PL_PER: dict[VolumeUnit, int] = {
    VolumeUnit.YD3: 764_554_857_984_000,
    VolumeUnit.FT3: 28_316_846_592_000,
    VolumeUnit.M3: 1_000_000_000_000_000,
    VolumeUnit.L: 1_000_000_000_000,
    VolumeUnit.GAL: 3_785_411_784_000,
}
"""Picolitres in one unit."""


def _cubed(unit: VolumeUnit, short: str, *names: str) -> dict[str, VolumeUnit]:
    """Spellings of a cubed unit."""
    words = [f"{short}3", f"{short}^3"]
    words += [f"{cubic} {name}" for cubic in ("cu", "cubic") for name in (short, *names)]
    return dict.fromkeys(words, unit)


_WORDS: dict[str, VolumeUnit] = {
    **_cubed(VolumeUnit.YD3, "yd", "yds", "yard", "yards"),
    # a yard of sand is a cubic yard to everybody who buys sand
    **dict.fromkeys(("cy", "cyd", "yd", "yds", "yard", "yards"), VolumeUnit.YD3),
    **_cubed(VolumeUnit.FT3, "ft", "foot", "feet"),
    **dict.fromkeys(("cf", "cft"), VolumeUnit.FT3),
    **_cubed(VolumeUnit.M3, "m", "metre", "metres", "meter", "meters"),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), VolumeUnit.L),
    **dict.fromkeys(("gal", "gals", "gallon", "gallons"), VolumeUnit.GAL),
}
_HALVED = {VolumeUnit.YD3, VolumeUnit.FT3, VolumeUnit.GAL}
VOLUME_FORMS: dict[VolumeUnit, tuple[str, str, str]] = {
    VolumeUnit.YD3: ("12.5", "2-1/2 yd3", "9.6 m3"),
    VolumeUnit.FT3: ("27", "6.5 ft3", "0.25 yd3"),
    VolumeUnit.M3: ("9.6", "0.25 m3", "12.5 yd3"),
    VolumeUnit.L: ("250", "19.5 L", "5 gal"),
    VolumeUnit.GAL: ("5", "2-1/2 gal", "19.5 L"),
}


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
    typed = Typed(text, "a volume", VOLUME_FORMS[unit])
    return read_quantity(typed, unit, _WORDS, PL_PER, _HALVED)


class VolumeStyle(StrEnum):
    """How a volume is shown: the unit and the last figure."""

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


def _shape(unit: VolumeUnit, places: int, name: str) -> Shape:
    """Shape of a style of one unit."""
    return Shape(PL_PER[unit], places, name)


_SHAPES: dict[VolumeStyle, Shape] = {
    VolumeStyle.YD3_10: _shape(VolumeUnit.YD3, 1, "yd\u00b3"),
    VolumeStyle.YD3_100: _shape(VolumeUnit.YD3, 2, "yd\u00b3"),
    VolumeStyle.YD3_1000: _shape(VolumeUnit.YD3, 3, "yd\u00b3"),
    VolumeStyle.FT3_1: _shape(VolumeUnit.FT3, 0, "ft\u00b3"),
    VolumeStyle.FT3_10: _shape(VolumeUnit.FT3, 1, "ft\u00b3"),
    VolumeStyle.FT3_100: _shape(VolumeUnit.FT3, 2, "ft\u00b3"),
    VolumeStyle.M3_10: _shape(VolumeUnit.M3, 1, "m\u00b3"),
    VolumeStyle.M3_100: _shape(VolumeUnit.M3, 2, "m\u00b3"),
    VolumeStyle.M3_1000: _shape(VolumeUnit.M3, 3, "m\u00b3"),
    VolumeStyle.L_1: _shape(VolumeUnit.L, 0, "L"),
    VolumeStyle.L_10: _shape(VolumeUnit.L, 1, "L"),
    VolumeStyle.GAL_1: _shape(VolumeUnit.GAL, 0, "gal"),
    VolumeStyle.GAL_10: _shape(VolumeUnit.GAL, 1, "gal"),
}


def show_volume(pl: int, style: VolumeStyle, *, mark: bool = False, unit: bool = True) -> str:
    """Write a volume in a style, rounded once, ties to even.

    Examples
    --------
    >>> show_volume(9_600_000_000_000_000, VolumeStyle.M3_100)
    '9.60 m³'
    """
    return show_quantity(pl, _SHAPES[style], mark=mark, unit=unit)
