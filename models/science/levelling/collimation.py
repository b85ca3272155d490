"""The two-peg test: whether a level's line of sight rises or falls."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.errors import CalculationInputError

BUILDERS_LIMIT = Fraction(125, 1_000_000)
"""5 mm in 40 m. Source: the project sheet on builders' levels of the Australian training
unit BCGBC4018A, pegs 40 m apart, the level rejected where the differences disagree by more."""

TENTH_ARC_SECOND = Fraction(4_848_137, 10**13)
"""Tangent of a tenth of an arc second: pi / 6 480 000, to seven figures."""


@dataclass(frozen=True, slots=True)
class PegReadings:
    """The rod readings of a two-peg test on pegs A and B.

    Attributes
    ----------
    mid_a_nm : int
        Reading on A from midway. [nm on the rod]
    mid_b_nm : int
        Reading on B from midway. [nm on the rod]
    end_a_nm : int
        Reading on A from the second setup. [nm on the rod]
    end_b_nm : int
        Reading on B from the second setup. [nm on the rod]
    to_a_nm : int
        Distance from the second setup to A. [nm]
    to_b_nm : int
        Distance from the second setup to B. [nm]
    """

    mid_a_nm: int
    mid_b_nm: int
    end_a_nm: int
    end_b_nm: int
    to_a_nm: int
    to_b_nm: int


def collimation_error(readings: PegReadings) -> Fraction:
    r"""Rise of the line of sight for each unit of distance.

    .. math::
        c = \frac{(a_2 - b_2) - (a_1 - b_1)}{d_A - d_B}

    Parameters
    ----------
    readings : PegReadings
        Midway readings, and a second setup beyond a peg or between the pegs
        close to one; only its two distances tell them apart. [nm]

    Returns
    -------
    error : Fraction
        Positive when the line of sight rises and readings are too large. [nm/nm]

    Raises
    ------
    CalculationInputError
        If the second setup is as far from A as from B.

    Notes
    -----
    From midway the error is the same on both pegs and drops out of the
    difference. Derived here; two published sets of readings agree with it.

    Examples
    --------
    Worked by hand from pegs 40 m apart, the second setup 10 m beyond B
    (readings in mm, distances in mm): (84 - 44) / (50000 - 10000).

    >>> collimation_error(PegReadings(1476, 1432, 1556, 1472, 50_000, 10_000))
    Fraction(1, 1000)
    """
    longer_nm = readings.to_a_nm - readings.to_b_nm
    if longer_nm == 0:
        raise CalculationInputError(
            what="the collimation error",
            why="the second setup is as far from A as from B, so the error hides itself again",
            accepted="Set up close to one peg and read both",
        )
    seen_nm = readings.end_a_nm - readings.end_b_nm
    true_nm = readings.mid_a_nm - readings.mid_b_nm
    return Fraction(seen_nm - true_nm, longer_nm)


def corrected_reading_nm(reading_nm: int, distance_nm: int, error: Fraction) -> Fraction:
    """Take the collimation error out of one reading.

    Parameters
    ----------
    reading_nm : int
        Reading as taken. [nm on the rod]
    distance_nm : int
        Length of the sight. [nm]
    error : Fraction
        Rise of the line of sight. [nm/nm]

    Returns
    -------
    reading : Fraction
        What a level line of sight would have read. [nm on the rod]

    Notes
    -----
    Holds while the error is small enough to take slope for angle. Derived here.

    Examples
    --------
    By hand: 1556 less 50 000 / 1000.

    >>> corrected_reading_nm(1556, 50_000, Fraction(1, 1000))
    Fraction(1506, 1)
    """
    return reading_nm - error * distance_nm


def peg_limit(limit_millionths: int | None, plane_asec10: int | None) -> Fraction:
    """Largest error of the line of sight that a peg test may show.

    Parameters
    ----------
    limit_millionths : int or None
        Limit set for this instrument. [millionths of the distance]
    plane_asec10 : int or None
        Stated error of its plane or line of sight. [tenths of an arc second]

    Returns
    -------
    limit : Fraction
        The limit set, else the larger of the stated error and ``BUILDERS_LIMIT``. [nm/nm]

    Notes
    -----
    On the limit counts as within. A limit of nothing passes no real instrument and is
    taken as it is set. Derived here from the published limit.

    Examples
    --------
    By hand: 125 millionths is 5 mm in 40 m.

    >>> peg_limit(None, None) * 40_000
    Fraction(5, 1)
    """
    if limit_millionths is not None:
        return Fraction(limit_millionths, 1_000_000)
    return max(BUILDERS_LIMIT, (plane_asec10 or 0) * TENTH_ARC_SECOND)
