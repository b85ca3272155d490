"""Whether a lot of readings is good enough, by counting and by its spread."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp, inf, lgamma, log, log1p, sqrt

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.science.quality.verdict import Verdict, judge


@dataclass(frozen=True, slots=True)
class Lot:
    """The figures of one lot of readings.

    Attributes
    ----------
    n : int
        Number of readings. [-]
    mean_nm : Fraction
        Mean. [nm]
    least_nm : int
        Smallest. [nm]
    most_nm : int
        Largest. [nm]
    sd_nm : float or None
        Standard deviation with n - 1; None for one reading. [nm]
    inside : int
        Number within limits. [-]
    percent_within : float or None
        Percent within limits by the quality index; None below three readings. [%]
    """

    n: int
    mean_nm: Fraction
    least_nm: int
    most_nm: int
    sd_nm: float | None
    inside: int
    percent_within: float | None

    @property
    def share_inside(self) -> Fraction:
        """Share of the readings within limits [-]."""
        return Fraction(self.inside, self.n)


def lot_figures(
    readings_nm: Sequence[int], low_nm: int | None = None, high_nm: int | None = None
) -> Lot:
    r"""Mean, spread, share in tolerance and percent within limits of a lot.

    .. math::
        Q_u = (U - \bar x) / s, \quad Q_l = (\bar x - L) / s, \quad
        PWL = P_u + P_l - 100

    Parameters
    ----------
    readings_nm : sequence of int
        The readings. [nm]
    low_nm : int or None
        Lower limit, itself within. [nm]
    high_nm : int or None
        Upper limit, itself within. [nm]

    Returns
    -------
    lot : Lot
        The figures. [nm]

    Raises
    ------
    CalculationInputError
        If there are no readings.

    Notes
    -----
    The share in tolerance is counted and exact. The percent within limits is
    an estimate that takes the lot as near normal; readings that are cut off
    (a probe that hits stone) are not, so show the list beside it. With no
    spread at all a side counts 100 or nothing. Source: FHWA TA 5080.12 and
    Florida DOT 334-8.2.2.2 for the method.

    Examples
    --------
    By hand: of 8, 9, 10 the mean is 9, the deviation 1, and 2 lie in 9 to 10.

    >>> lot = lot_figures([8, 9, 10], 9, 10)
    >>> lot.n, int(lot.mean_nm), lot.sd_nm, lot.inside
    (3, 9, 1.0, 2)
    """
    n = len(readings_nm)
    if n == 0:
        raise CalculationInputError(
            what="the figures of a lot", why="it has no readings", accepted="Give one or more"
        )
    mean = Fraction(sum(readings_nm), n)
    sd = None
    if n > 1:
        sd = sqrt(sum((reading - mean) ** 2 for reading in readings_nm) / (n - 1))
    inside = sum(judge(reading, low_nm, high_nm) is Verdict.OK for reading in readings_nm)
    within = None
    if sd is not None and n >= 3 and (low_nm is not None or high_nm is not None):
        upper = 100.0 if high_nm is None else _one_side(high_nm - mean, sd, n)
        lower = 100.0 if low_nm is None else _one_side(mean - low_nm, sd, n)
        within = max(upper + lower - 100.0, 0.0)
    return Lot(n, mean, min(readings_nm), max(readings_nm), sd, inside, within)


def _one_side(room_nm: Fraction, sd_nm: float, n: int) -> float:
    """Percent within one limit that is ``room_nm`` away from the mean."""
    if sd_nm == 0:
        return percent_within(inf if room_nm >= 0 else -inf, n)
    return percent_within(float(room_nm) / sd_nm, n)


def percent_within(quality_index: float, n: int) -> float:
    r"""Percent within one limit from its quality index.

    .. math::
        P = 100\,[1 - I_x(n/2 - 1,\; n/2 - 1)], \qquad
        x = \max\left(0,\; \tfrac12 - \frac{Q\sqrt n}{2 (n - 1)}\right)

    Parameters
    ----------
    quality_index : float
        Distance from mean to limit, in standard deviations. [-]
    n : int
        Number of readings, three or more. [-]

    Returns
    -------
    percent : float
        Estimated share of the lot within that limit. [%]

    Raises
    ------
    CalculationInputError
        If n is below three.

    Notes
    -----
    The closed form behind the published tables, which print the quality index
    to two places. From memory; agrees with FHWA TA 5080.12 Table 1B to 0.2 %.

    Examples
    --------
    By hand: for n = 4 the form becomes 50 + 100 Q / 3.

    >>> round(percent_within(0.69, 4), 6)
    73.0
    """
    if n < 3:
        raise CalculationInputError(
            what="the percent within limits",
            why=f"{CountedNoun(n):reading says|readings say} too little about spread",
            accepted="Give three or more, or judge each reading by itself",
        )
    x = 0.5 - quality_index * sqrt(n) / (2 * (n - 1))
    return 100.0 * (1.0 - incomplete_beta(min(max(x, 0.0), 1.0), n / 2 - 1, n / 2 - 1))


def incomplete_beta(x: float, a: float, b: float) -> float:
    r"""Regularised incomplete beta function :math:`I_x(a, b)`.

    Parameters
    ----------
    x : float
        Upper end of the integral, from 0 to 1. [-]
    a : float
        First exponent plus one, above 0. [-]
    b : float
        Second exponent plus one, above 0. [-]

    Returns
    -------
    share : float
        Share of the whole integral below x. [-]

    Notes
    -----
    The continued fraction of any handbook of functions, by Lentz's method (from
    memory), used on the side of the mean where it converges fast. Good to about
    1e-12 for a, b up to some thousands.

    Examples
    --------
    By hand: for a = b = 2 the integral is 3 x^2 - 2 x^3.

    >>> round(incomplete_beta(0.25, 2.0, 2.0), 9)
    0.15625
    """
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    if x > (a + 1) / (a + b + 2):
        return 1.0 - incomplete_beta(1.0 - x, b, a)
    front = exp(a * log(x) + b * log1p(-x) + lgamma(a + b) - lgamma(a) - lgamma(b))
    return front * _beta_fraction(x, a, b) / a


def _beta_fraction(x: float, a: float, b: float) -> float:
    """Continued fraction of the incomplete beta function."""
    tiny = 1e-300
    c, d = 1.0, 1.0 / ((1.0 - (a + b) * x / (a + 1.0)) or tiny)
    total = d
    for m in range(1, 1000):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        step = 1.0
        for term in (even, odd):
            d = 1.0 / ((1.0 + term * d) or tiny)
            c = (1.0 + term / c) or tiny
            step = c * d
            total *= step
        if abs(step - 1.0) < 1e-15:
            break
    return total
