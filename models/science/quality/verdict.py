"""Verdict on a measured figure against its limits, as read or as far as readings prove it."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction


class Verdict(StrEnum):
    """Words that a reading is judged in."""

    OK = "OK"
    WITHIN = "OK as read"
    BEYOND = "out as read, shoot again"
    OUT = "OUT"
    NOT_MEASURED = "not yet measured"

    @property
    def is_in(self) -> bool:
        """Whether it counts as within its limits: proven, or as read alone."""
        return self in {Verdict.OK, Verdict.WITHIN}

    @property
    def is_out(self) -> bool:
        """Whether it counts as beyond a limit: proven, or as read alone."""
        return self in {Verdict.BEYOND, Verdict.OUT}


Z_OF: Mapping[int, Fraction] = {
    90: Fraction(1282, 1000),
    95: Fraction(1645, 1000),
    99: Fraction(2326, 1000),
}
"""Standard deviations that a margin must be worth to be proven, by confidence in per cent:
one-sided quantiles of the normal distribution, as any table of it prints them."""


def judge(
    value: int | Fraction | None,
    low: int | Fraction | None = None,
    high: int | Fraction | None = None,
) -> Verdict:
    """Say whether a value lies within its limits; a value on a limit does.

    Parameters
    ----------
    value : int, Fraction or None
        What was measured; None when nothing was. [any one unit]
    low : int, Fraction or None
        Least allowed; None when there is no lower limit. [unit of value]
    high : int, Fraction or None
        Most allowed; None when there is no upper limit. [unit of value]

    Returns
    -------
    verdict : Verdict
        OK, OUT or NOT_MEASURED. [-]

    Notes
    -----
    Compared as whole numbers and fractions, so a limit is exact in either
    system of units. Derived here.

    Examples
    --------
    By inspection: 9 lies on its upper limit, 10 lies above it.

    >>> judge(9, 8, 9), judge(10, 8, 9)
    (<Verdict.OK: 'OK'>, <Verdict.OUT: 'OUT'>)
    """
    if value is None:
        return Verdict.NOT_MEASURED
    is_low = low is not None and value < low
    is_high = high is not None and value > high
    return Verdict.OUT if is_low or is_high else Verdict.OK


def judge_margin(margin: int | Fraction, variance: Fraction, z: Fraction) -> Verdict:
    r"""Say what readings prove of a figure that lies a margin inside its nearer limit.

    With the guard band :math:`g = z\sigma`::

        ---- OUT ----| BEYOND | WITHIN |---- OK ----
                    -g   limit: 0     +g              margin

    Parameters
    ----------
    margin : int or Fraction
        How far inside the nearer limit it was read; below zero beyond it. [any one unit]
    variance : Fraction
        Variance of the margin, 0 for a figure that is exact. [square of that unit]
    z : Fraction
        Standard deviations that go with the confidence, see ``Z_OF``. [-]

    Returns
    -------
    verdict : Verdict
        OK and OUT are proven; WITHIN and BEYOND hold as read alone. [-]

    Notes
    -----
    JCGM 106:2012, 8.3.2 and 8.3.3: guarded acceptance and guarded rejection, each
    with a guard band taken for the confidence of the job, one-sided. Compared as
    squares, so nothing is rounded; a figure on its limit is in, and with exact
    readings four verdicts are two.

    Examples
    --------
    By hand: 2 x 3 = 6 is the guard band.

    >>> [judge_margin(x, Fraction(9), Fraction(2)).name for x in (6, 5, 0, -1, -6)]
    ['OK', 'WITHIN', 'WITHIN', 'BEYOND', 'OUT']
    """
    is_proven = margin**2 >= z**2 * variance
    if margin >= 0:
        return Verdict.OK if is_proven else Verdict.WITHIN
    return Verdict.OUT if is_proven else Verdict.BEYOND
