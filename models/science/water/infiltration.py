"""Ring tests: how fast water leaves a ring set into the ground."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import log

from models.errors import CalculationInputError

_SECONDS_IN_HOUR = 3600
STEADY_SHARE = Fraction(1, 10)
"""Rates that differ by no more than this share of the larger are taken for steady."""


@dataclass(frozen=True, slots=True)
class RingReading:
    """Water level in a ring, and to what it was filled up after it was read.

    Attributes
    ----------
    after_s : int
        Time since the test began. [s]
    level_nm : int
        Height of the water above the ground. [nm]
    refilled_to_nm : int or None
        Height after filling up; None if it was left to fall on. [nm]
    """

    after_s: int
    level_nm: int
    refilled_to_nm: int | None = None


@dataclass(frozen=True, slots=True)
class RingInterval:
    """Water that went into the ground between two readings.

    Attributes
    ----------
    from_s, to_s : int
        Time since the test began. [s]
    drop_nm : int
        Fall of the water. [nm]
    rate_nm_per_h : Fraction
        Fall over time. [nm/h]
    """

    from_s: int
    to_s: int
    drop_nm: int
    rate_nm_per_h: Fraction


@dataclass(frozen=True, slots=True)
class RingResult:
    """Result of a ring test: its intervals, and the rate once that is steady.

    Attributes
    ----------
    intervals : tuple of RingInterval
        In the order of time. [-]
    rate_nm_per_h : Fraction
        Mean of the last intervals that agree, weighted by time. [nm/h]
    steady_from : int
        Place of the first of them, from 0. [-]
    is_steady : bool
        Whether there were at least two of them. [-]
    """

    intervals: tuple[RingInterval, ...]
    rate_nm_per_h: Fraction
    steady_from: int
    is_steady: bool


def ring_result(readings: Sequence[RingReading]) -> RingResult:
    """Infiltration rate of a ring test, interval by interval and when it became steady.

    Parameters
    ----------
    readings : sequence of RingReading
        At least two, in the order of time. [s, nm]

    Returns
    -------
    result : RingResult
        Rates and the one to go by. [nm/h]

    Raises
    ------
    CalculationInputError
        If there are fewer than two readings, time does not go on, the water rose without
        being filled up, or a ring was read below the ground.

    Notes
    -----
    Water that left through the ring's area over time is the incremental infiltration
    velocity of ASTM D3385: V = volume / (area x time). In a ring with upright walls the
    area cancels, and the fall of the water over time is the same. The ground takes less
    as it fills, so the last intervals count, back to where one differs by more than a
    tenth from the last (common practice, no source). A single ring lets water spread
    sideways and reads high; of two rings only the inner counts.

    Examples
    --------
    By hand: 30 mm in half an hour, twice: 60 mm/h.

    >>> half = RingReading(1800, 70_000_000, refilled_to_nm=100_000_000)
    >>> full, end = RingReading(0, 100_000_000), RingReading(3600, 70_000_000)
    >>> result = ring_result([full, half, end])
    >>> result.rate_nm_per_h / 1_000_000, result.is_steady
    (Fraction(60, 1), True)
    """
    if len(readings) < 2:
        raise CalculationInputError(
            what="a ring test",
            why="it has fewer than two readings",
            accepted="Give two readings or more",
        )
    intervals = tuple(_interval(early, late) for early, late in pairwise(readings))
    last = intervals[-1].rate_nm_per_h
    first = len(intervals) - 1
    while first and _agrees(intervals[first - 1].rate_nm_per_h, last):
        first -= 1
    steady = intervals[first:]
    drop_nm = sum(interval.drop_nm for interval in steady)
    rate = Fraction(drop_nm * _SECONDS_IN_HOUR, steady[-1].to_s - steady[0].from_s)
    return RingResult(intervals, rate, first, len(steady) > 1)


def falling_head_conductivity(
    first_nm: int, last_nm: int, driven_nm: int, seconds: int
) -> Fraction:
    """Conductivity of the soil in a driven ring, from the fall of the water on it.

    Parameters
    ----------
    first_nm, last_nm : int
        Height of the water above the ground at the beginning and at the end. [nm]
    driven_nm : int
        Length of soil in the ring. [nm]
    seconds : int
        Time between the two. [s]

    Returns
    -------
    conductivity : Fraction
        To the nearest nanometre an hour. [nm/h]

    Raises
    ------
    CalculationInputError
        If the water did not fall, stood below the ground, no soil was in the ring, or no
        time went by.

    Notes
    -----
    Darcy's law for a column of length L that drains freely below: dh/dt = -K (h + L) / L,
    so K = L / t x ln((h0 + L) / (h1 + L)); derived here. It holds once the soil in the
    ring is full of water; below, water must get away faster than it comes.

    Examples
    --------
    By calculator: 100 mm falling to 50 mm in 1,000 s over 100 mm of soil:
    100 / 1000 x ln(200 / 150) = 0.0287682 mm/s = 103.566 mm/h.

    >>> float(falling_head_conductivity(100_000_000, 50_000_000, 100_000_000, 1000)) / 1e6
    103.565546
    """
    if not 0 <= last_nm < first_nm or driven_nm <= 0 or seconds <= 0:
        raise CalculationInputError(
            what="a ring test",
            why="the water must fall, above the ground, over soil in the ring, in some time",
            accepted="Give two heights, the later the lower, a driven length and a time above zero",
        )
    fall = log((first_nm + driven_nm) / (last_nm + driven_nm))
    return Fraction(round(driven_nm * fall * _SECONDS_IN_HOUR / seconds))


def _interval(early: RingReading, late: RingReading) -> RingInterval:
    seconds = late.after_s - early.after_s
    begun_nm = early.level_nm if early.refilled_to_nm is None else early.refilled_to_nm
    drop_nm = begun_nm - late.level_nm
    if seconds <= 0:
        raise CalculationInputError(
            what="a ring test",
            why=f"the reading at {late.after_s} s does not come after the one before",
            accepted="Give the readings in the order of time",
        )
    if drop_nm < 0 or late.level_nm < 0:
        raise CalculationInputError(
            what="a ring test",
            why=f"at {late.after_s} s the water stands higher than it was left, or below ground",
            accepted="Give the height it was filled up to with the reading before",
        )
    return RingInterval(
        early.after_s, late.after_s, drop_nm, Fraction(drop_nm * _SECONDS_IN_HOUR, seconds)
    )


def _agrees(one: Fraction, other: Fraction) -> bool:
    return abs(one - other) <= STEADY_SHARE * max(one, other)
