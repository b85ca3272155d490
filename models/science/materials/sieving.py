"""A sieve sheet: from weights to shares, grain sizes and named fractions."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from models.errors import CalculationInputError
from models.science.materials.gradation import BandResult, Grain, judge_gradation

PAN_UM = 0
"""Opening that stands for the pan below the last sieve [um]."""

BOUNDS_UM: dict[Grain, tuple[int, int]] = {
    Grain.FINE_GRAVEL: (2000, 3400),
    Grain.VERY_COARSE: (1000, 2000),
    Grain.COARSE: (500, 1000),
    Grain.MEDIUM: (250, 500),
    Grain.FINE: (150, 250),
    Grain.VERY_FINE: (50, 150),
}
"""Smallest and largest grain of each fraction that sieves can tell [um]."""

NO_270_UM = 53
"""The No. 270 sieve, used for 50 um [um]."""

NO_6_UM = 3350
"""The No. 6 sieve, used for 3.4 mm [um]."""

SERVES_AS = {NO_270_UM: 50, NO_6_UM: 3400}
"""Sieves that serve for a bound of the table that no sieve has [um]."""


def shares_retained(weights: Mapping[int, int]) -> dict[int, Fraction]:
    """Share held back on each sieve, from what it weighed.

    Parameters
    ----------
    weights : mapping of int to int
        Weight on each sieve by its opening, PAN_UM for the pan. [um: any one unit]

    Returns
    -------
    shares : dict of int to Fraction
        By opening, the largest first. [um: %]

    Raises
    ------
    CalculationInputError
        If a weight or an opening is negative, or nothing was weighed.

    Notes
    -----
    Without the pan the shares are of what the sieves held, and too large.

    Examples
    --------
    By hand: 30 of 40.

    >>> shares_retained({0: 10, 500: 30})[500]
    Fraction(75, 1)
    """
    total = sum(weights.values())
    if total <= 0 or min([*weights, *weights.values()]) < 0:
        raise CalculationInputError(
            what="the shares of a sieve sheet",
            why="nothing was weighed, or a weight or an opening is negative",
            accepted="Give what each sieve and the pan held",
        )
    return {um: Fraction(weights[um] * 100, total) for um in sorted(weights, reverse=True)}


def shares_passing(retained: Mapping[int, Fraction]) -> dict[int, Fraction]:
    """Share that passes each sieve, from what each holds back.

    Parameters
    ----------
    retained : mapping of int to Fraction
        Share on each sieve by its opening, PAN_UM for the pan. [um: %]

    Returns
    -------
    passing : dict of int to Fraction
        By opening, the largest first; the pan is left out. [um: %]

    Raises
    ------
    CalculationInputError
        If a share is negative, or they come to less than 99 or more than 101 %.

    Notes
    -----
    Sheets print shares rounded, hence 99 to 101 %; what the sum is off stays
    in what passes.

    Examples
    --------
    By hand: 100 less 75.

    >>> shares_passing({500: Fraction(75), 0: Fraction(25)})
    {500: Fraction(25, 1)}
    """
    if any(share < 0 for share in retained.values()) or not 99 <= sum(retained.values()) <= 101:
        raise CalculationInputError(
            what="what passes the sieves",
            why="a share is negative, or the shares do not come to a hundred",
            accepted="Give percent retained on each sieve and in the pan, by mass",
        )
    passing: dict[int, Fraction] = {}
    left = Fraction(100)
    for um in sorted(retained, reverse=True):
        left -= retained[um]
        passing[um] = left
    passing.pop(PAN_UM, None)
    return passing


def grain_size_um(passing: Mapping[int, Fraction], percent: int) -> int | None:
    """Grain size below which a share of the sample lies, such as D15.

    Parameters
    ----------
    passing : mapping of int to Fraction
        Share that passes each sieve by its opening. [um: %]
    percent : int
        Which share: 15 for D15. [%]

    Returns
    -------
    size : int or None
        Rounded to whole micrometres; None when the sieves don't reach it. [um]

    Raises
    ------
    CalculationInputError
        If a coarser sieve passes less than a finer one.

    Notes
    -----
    Straight between two sieves on the usual sheet, whose sizes stand on a
    logarithmic scale. Nothing is guessed beyond the sieves. Derived here.

    Examples
    --------
    By hand: midway between 250 and 1000 on a logarithmic scale lies 500.

    >>> grain_size_um({1000: Fraction(80), 250: Fraction(20)}, 50)
    500
    """
    sheet = sorted(passing.items())
    for (fine, low), (coarse, high) in pairwise(sheet):
        if low > high or fine <= 0:
            raise CalculationInputError(
                what=f"D{percent}",
                why=f"less passes the sieve of {coarse} um than that of {fine} um",
                accepted="Give percent passing, which grows with the opening",
            )
    for (fine, low), (coarse, high) in pairwise(sheet):
        if low <= percent <= high and low < high:
            share = float((percent - low) / (high - low))
            size_um: float = fine * (coarse / fine) ** share
            return round(size_um)
    return None


def grain_shares(retained: Mapping[int, Fraction]) -> dict[Grain, Fraction]:
    """Named fractions of a sand, from what each sieve holds back.

    Parameters
    ----------
    retained : mapping of int to Fraction
        Share on each sieve by its opening, PAN_UM for the pan. [um: %]

    Returns
    -------
    shares : dict of Grain to Fraction
        What ``judge_gradation`` takes; a fraction is left out when the sheet
        lacks the sieve at either end of it. [%]

    Notes
    -----
    A sieve holds back what passed the next larger one. Silt and clay lie in
    the pan and are told apart by settling in water, so they are left out here.
    What is held at or above 3.4 mm belongs to no fraction of the table. A No.
    270 sieve serves for 50 um, a No. 6 for 3.4 mm. Where all passes the sieve at
    the lower end of a fraction, there is none of it. Derived here.

    Examples
    --------
    By hand: between 0.25 and 0.5 mm lie the two sieves of 355 and 250 um.

    >>> sheet = {500: Fraction(10), 355: Fraction(30), 250: Fraction(20), 0: Fraction(40)}
    >>> {str(grain): int(share) for grain, share in grain_shares(sheet).items()}
    {'medium sand 0.25-0.50': 50}
    """
    sheet = _by_bound(retained)
    shares: dict[Grain, Fraction] = {}
    for grain, (low, high) in BOUNDS_UM.items():
        is_none = not any(share for um, share in sheet.items() if um >= low)
        if low in sheet and (high in sheet or is_none):
            inside = [share for um, share in sheet.items() if low <= um < high]
            shares[grain] = sum(inside, Fraction(0))
    return shares


def judge_sieves(retained: Mapping[int, Fraction], edition: str) -> list[BandResult]:
    """Judge a sieve sheet by every band of one edition.

    Parameters
    ----------
    retained : mapping of int to Fraction
        Share on each sieve by its opening, PAN_UM for the pan. [um: %]
    edition : str
        Which published table; a key of EDITIONS. [-]

    Returns
    -------
    results : list of BandResult
        One for each band, in the order of the table. [%]

    Raises
    ------
    CalculationInputError
        As ``judge_gradation``.

    Notes
    -----
    Sieves don't tell silt from clay, but very fine sand, silt and clay together are
    what passes 0.15 mm: that band is judged by the sieves alone. Derived here.

    Examples
    --------
    By hand: 8 on 0.053 mm and 3 in the pan are 11, and at most 10 is allowed.

    >>> sheet = {150: Fraction(89), 53: Fraction(8), 0: Fraction(3)}
    >>> fines = judge_sieves(sheet, "USGA 1993")[-1]
    >>> fines.share, str(fines.verdict)
    (Fraction(11, 1), 'OUT')
    """
    low = BOUNDS_UM[Grain.VERY_FINE][1]
    together: dict[tuple[Grain, ...], Fraction] = {}
    if low in retained and PAN_UM in retained:
        fines = sum((share for um, share in retained.items() if um < low), Fraction(0))
        together = {(Grain.VERY_FINE, Grain.SILT, Grain.CLAY): fines}
    return judge_gradation(grain_shares(retained), edition, together)


def coarser_than_table(retained: Mapping[int, Fraction]) -> Fraction:
    """Share of a sand that is too coarse for any band of the table.

    Parameters
    ----------
    retained : mapping of int to Fraction
        Share on each sieve by its opening, PAN_UM for the pan. [um: %]

    Returns
    -------
    share : Fraction
        What is held at or above 3.4 mm. [%]

    Notes
    -----
    A No. 6 sieve serves for 3.4 mm. Without a sieve that coarse it is nothing known,
    which is given as nothing. Derived here.

    Examples
    --------
    By inspection.

    >>> coarser_than_table({4750: Fraction(2), 2000: Fraction(5), 0: Fraction(93)})
    Fraction(2, 1)
    """
    high = BOUNDS_UM[Grain.FINE_GRAVEL][1]
    return sum((share for um, share in _by_bound(retained).items() if um >= high), Fraction(0))


def _by_bound(retained: Mapping[int, Fraction]) -> dict[int, Fraction]:
    """A sheet by the bounds of the table, sieves that serve for one standing as it."""
    serves = {um: bound for um, bound in SERVES_AS.items() if bound not in retained}
    return {serves.get(um, um): share for um, share in retained.items()}
