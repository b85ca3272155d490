"""Bulking of moist sand: what the jar says, and what to order."""

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


def loose_volume_pl(in_place_pl: int, bulked: Fraction) -> int:
    """Loose moist sand to order for a volume in place.

    Parameters
    ----------
    in_place_pl : int
        Volume in place, dry. [pl]
    bulked : Fraction
        Bulking of the sand as delivered. [-]

    Returns
    -------
    volume : int
        Rounded to whole picolitres, ties to even. [pl]

    Notes
    -----
    Leaves settlement in the slit out; no figure for it is published.

    Examples
    --------
    By hand: 100 x 1.25.

    >>> loose_volume_pl(100, Fraction(1, 4))
    125
    """
    return round(in_place_pl * (1 + bulked))
