"""Showing a reading beside its limits, so that rounding never hides which side it is on."""

from __future__ import annotations

from collections.abc import Iterable

from models.units.length import STEP_NM, LengthStyle, show_length
from models.units.rounding import round_half_even

_FINER: dict[LengthStyle, LengthStyle] = {
    LengthStyle.IN_8: LengthStyle.IN_16,
    LengthStyle.IN_16: LengthStyle.IN_64,
    LengthStyle.IN_64: LengthStyle.IN_1000,
    LengthStyle.FT_IN_8: LengthStyle.IN_16,
    LengthStyle.IN_10: LengthStyle.IN_1000,
    LengthStyle.FT_1: LengthStyle.FT_10,
    LengthStyle.FT_10: LengthStyle.FT_100,
    LengthStyle.FT_100: LengthStyle.FT_1000,
    LengthStyle.M_10: LengthStyle.M_100,
    LengthStyle.M_100: LengthStyle.M_1000,
    LengthStyle.M_1000: LengthStyle.MM_10,
    LengthStyle.CM_10: LengthStyle.MM_10,
    LengthStyle.MM: LengthStyle.MM_10,
}


def show_length_beside_limits(nm: int, limits_nm: Iterable[int], style: LengthStyle) -> str:
    """Write a length in a style, or finer where the style would move it across or onto a limit.

    A reading of 8-7/16 in against a least of 8-1/2 in would read "8-1/2 in" in
    eighths, yet it is out. If the finest style still cannot tell them apart the figure is
    marked ``~``.

    Examples
    --------
    >>> show_length_beside_limits(214_312_500, [215_900_000], LengthStyle.IN_8)
    '8-7/16 in'
    """
    limits = tuple(limits_nm)
    own: LengthStyle | None = style
    while own is not None:
        style = own
        shown_nm = round_half_even(nm, STEP_NM[style]) * STEP_NM[style]
        if all(_side(shown_nm, limit) == _side(nm, limit) for limit in limits):
            return show_length(nm, style)
        own = _FINER.get(style)
    return show_length(nm, style, mark=True)


def _side(nm: int, limit_nm: int) -> int:
    """Return -1, 0 or 1 for below, on or above a limit."""
    return (nm > limit_nm) - (nm < limit_nm)
