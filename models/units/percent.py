"""Percents beside a limit: cut towards the limit, so that words claim no more than is so."""

from __future__ import annotations

from fractions import Fraction

from models.units.rounding import show_decimal

_MOST_PLACES = 9


def percent_beside_limits(
    share: int | Fraction,
    low: int | Fraction | None = None,
    high: int | Fraction | None = None,
    places: int = 0,
) -> str:
    """Write a share that is held to limits, cut towards the limit it is nearer to.

    More is better where there is no upper limit, so 89.96 is 89 and never 90; less is better
    where there is no lower one, so 10.01 is 11. What is shown lies on the same side of each
    limit as the share itself: where cutting alone would contradict that, as with 92.6 beside
    a least of 92.5, more places are shown.

    Parameters
    ----------
    share : int or Fraction
        The share. [%]
    low, high : int or Fraction or None
        Limits, themselves within. [%]
    places : int
        Decimal places, more where they are needed.

    Returns
    -------
    text : str
        The figure alone.

    Examples
    --------
    >>> percent_beside_limits(Fraction("89.96"), low=90), percent_beside_limits(90, low=90)
    ('89', '90')
    >>> percent_beside_limits(Fraction("110.04"), 90, 110, 1)
    '110.1'
    >>> percent_beside_limits(Fraction("92.6"), low=Fraction("92.5"))
    '92.6'
    """
    is_up = high is not None and (low is None or 2 * share >= low + high)
    side = _side(share, low, high)
    text = ""
    for count in range(places, _MOST_PLACES + 1):
        scale = 10**count
        shown = -(-share * scale // 1) if is_up else share * scale // 1
        text = show_decimal(int(shown), count)
        if _side(Fraction(int(shown), scale), low, high) == side:
            break
    return text


def _side(share: int | Fraction, low: int | Fraction | None, high: int | Fraction | None) -> int:
    """-1 below the limits, 1 above them, 0 within."""
    if low is not None and share < low:
        return -1
    return 1 if high is not None and share > high else 0


def exact_percent(estimate: float) -> Fraction:
    """Decimal that a float estimate stands for, good to a billionth of a percent.

    Without it 90 reckoned as 89.99999999999999 would be cut to 89.

    Examples
    --------
    >>> exact_percent(89.99999999999999)
    Fraction(90, 1)
    """
    return Fraction(round(estimate * 10**9), 10**9)
