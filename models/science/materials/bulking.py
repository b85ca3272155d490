"""Bulking of moist sand: what the jar shows, and how much more to order."""

from __future__ import annotations

from fractions import Fraction

from models.errors import CalculationInputError


def bulking(moist_nm: int, flooded_nm: int) -> Fraction:
    """Swelling of moist sand, from its height in a jar before and after flooding.

    Parameters
    ----------
    moist_nm : int
        Height as it came. [nm]
    flooded_nm : int
        Height once flooded and settled, the same as dry. [nm]

    Returns
    -------
    bulking : Fraction
        Gain in volume over dry. [-]

    Raises
    ------
    CalculationInputError
        If the flooded height is not above zero, or is above the moist one.

    Notes
    -----
    Usually 20 to 40 % at 5 to 8 % moisture (civilease.com).

    Examples
    --------
    By hand: (200 - 160) / 160.

    >>> bulking(200, 160)
    Fraction(1, 4)
    """
    if not 0 < flooded_nm <= moist_nm:
        raise CalculationInputError(
            what="the bulking of sand",
            why="the flooded height is nothing or above the moist height",
            accepted="Give both heights in the same jar, the moist one first",
        )
    return Fraction(moist_nm - flooded_nm, flooded_nm)
