"""How sure an elevation is: the readings that it rests on, each with its weight and its error."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import isqrt

from models.errors import CalculationInputError
from models.science.levelling.collimation import TENTH_ARC_SECOND
from models.science.levelling.laser_plane import Length

PLANE_ASEC10 = 100
"""Error of a plane or line of sight where none is stated, tenths of an arc second: 10 arc
seconds, 4.85 mm in 100 m. Common practice, no source."""

SIGHT_NM = 30_000_000_000
"""Length of a sight that nobody noted, 30 m: common practice, no source."""

SEAT_NM = 500_000
"""Standard deviation of the seat of a turning point, 0.5 mm: common practice, no source."""

EARTH_RADIUS_NM = 6_371_000 * 10**9
"""Mean radius of the earth, 6 371 km."""

REFRACTION = Fraction(13, 100)
"""Part of the curvature that refraction takes back, 0.13: from memory of textbooks."""

_GRAIN = 3 * 10**26
"""Parts of a square nanometre that variances are counted in: a third of the square of a
reading's half width and of a tenth of an arc second are both whole numbers of them."""


@dataclass(frozen=True, slots=True)
class ErrorSource:
    """Reading or assumption that is off by an unknown amount.

    Two sources of one name are one and the same: where both ends of a difference
    rest on it, it cancels.

    Attributes
    ----------
    name : str
        What it is, such as the backsight of a setup. [-]
    grains : int
        Variance, in parts of a square nanometre (``_GRAIN`` of them). [nm2]
    """

    name: str
    grains: int


Terms = Mapping[ErrorSource, Length]
"""Weight of each source of error in an elevation: metres of it for each unit of the source."""


@dataclass(frozen=True, slots=True)
class Level:
    """An elevation with what it rests on.

    Attributes
    ----------
    value : int or Fraction
        The elevation, or a difference of two. [nm]
    terms : mapping of ErrorSource to int or Fraction
        Weight of every source of error in it. [-, or nm for an angle]
    """

    value: Length
    terms: Terms = field(default_factory=dict)


def reading_error(name: str, half_width_nm: int) -> ErrorSource:
    r"""Error of a rod reading that lies anywhere within a half width, :math:`r/\sqrt 3`.

    Parameters
    ----------
    name : str
        Which reading. [-]
    half_width_nm : int
        It is good to plus or minus this. [nm]

    Returns
    -------
    source : ErrorSource
        With variance a third of the square of the half width. [nm2]

    Notes
    -----
    JCGM 100:2008, 4.3.7: a quantity known to lie between two limits and nothing
    more has a rectangular distribution, whose variance is a third of the square
    of its half width.

    Examples
    --------
    By hand: 3 x 3 / 3 = 3.

    >>> variance({reading_error("a", 3): 1})
    Fraction(3, 1)
    """
    return ErrorSource(name, half_width_nm**2 * (_GRAIN // 3))


def angle_error(name: str, asec10: int | None) -> ErrorSource:
    """Error of a direction of sight, of the tilt of a plane or of a dialled grade.

    Parameters
    ----------
    name : str
        Which direction. [-]
    asec10 : int or None
        Stated error, taken as a half width; ``PLANE_ASEC10`` where none is. [0.1 arc second]

    Returns
    -------
    source : ErrorSource
        Rise for each unit of distance; its weight in an elevation is a distance. [-]

    Notes
    -----
    Rectangular as a reading's. Derived here.

    Examples
    --------
    By hand: 10 arc seconds are 4.848 mm in 100 m, over the root of 3 2.799 mm.

    >>> round(float(variance({angle_error("tilt", None): 100 * 10**9})) ** 0.5)
    2799073
    """
    stated = PLANE_ASEC10 if asec10 is None else asec10
    width = TENTH_ARC_SECOND * stated
    return ErrorSource(name, int(width**2 * _GRAIN) // 3)


def known_error(name: str, variance_nm2: Fraction | int) -> ErrorSource:
    """Error whose variance is given, such as that of a benchmark or of a peg test.

    Parameters
    ----------
    name : str
        What it is an error of. [-]
    variance_nm2 : Fraction or int
        Square of its standard deviation. [nm2, or 1 for an angle]

    Returns
    -------
    source : ErrorSource
        Rounded up to a part in 10^26, so it is never taken as too good. [nm2]

    Notes
    -----
    Derived here.

    Examples
    --------
    By inspection.

    >>> variance({known_error("BM", 4): 1})
    Fraction(4, 1)
    """
    return ErrorSource(name, -int(-variance_nm2 * _GRAIN // 1))


def variance(terms: Terms) -> Fraction:
    r"""Variance of what rests on sources of error, :math:`\sum c_i^2 \sigma_i^2`.

    Parameters
    ----------
    terms : mapping of ErrorSource to int or Fraction
        Weight of each source. [-, or nm for an angle]

    Returns
    -------
    variance : Fraction
        Exact. [nm2]

    Notes
    -----
    JCGM 100:2008, 5.1.2, for sources that are independent of one another.

    Examples
    --------
    By hand: 3 + 4 x 3 = 15.

    >>> variance({reading_error("a", 3): 1, reading_error("b", 3): 2})
    Fraction(15, 1)
    """
    return Fraction(sum(weight**2 * source.grains for source, weight in terms.items()), _GRAIN)


def difference(one: Level, other: Level) -> Level:
    """Subtract one elevation from another; errors of both in equal weight drop out.

    Parameters
    ----------
    one : Level
        The first. [nm]
    other : Level
        What is taken off it. [nm]

    Returns
    -------
    level : Level
        The difference with what it rests on. [nm]

    Notes
    -----
    Derived here: a benchmark, a backsight and every turning point that two shots
    share fall out of the fall between them.

    Examples
    --------
    By hand: the shared backsight goes, two readings stay.

    >>> back, a, b = (reading_error(name, 3) for name in ("back", "a", "b"))
    >>> fall = difference(Level(10, {back: 1, a: -1}), Level(4, {back: 1, b: -1}))
    >>> fall.value, [source.name for source in fall.terms], variance(fall.terms)
    (6, ['a', 'b'], Fraction(6, 1))
    """
    terms: dict[ErrorSource, Length] = dict(one.terms)
    for source, weight in other.terms.items():
        left = terms.pop(source, 0) - weight
        if left:
            terms[source] = left
    return Level(one.value - other.value, terms)


def curvature_nm(sight_nm: int) -> Fraction:
    r"""How much too large a reading is at the end of a sight, by curvature less refraction.

    .. math::
        h = (1 - 0.13) \frac{d^2}{2R}

    Parameters
    ----------
    sight_nm : int
        Length of the sight. [nm]

    Returns
    -------
    height : Fraction
        Never below zero. [nm]

    Notes
    -----
    From memory of textbooks of surveying, which print 0.0675 m in a kilometre for a
    refraction of 0.14. It cancels between two sights of one length.

    Examples
    --------
    By hand: 0.87 x 100^2 / (2 x 6 371 000) = 0.000683 m.

    >>> round(curvature_nm(100_000_000_000))
    682781
    """
    return (1 - REFRACTION) * sight_nm**2 / (2 * EARTH_RADIUS_NM)


def guard_band_nm(variance_nm2: Fraction, z: Fraction) -> int:
    r"""Guard band that readings take off a tolerance, :math:`z\sigma`, rounded up to a nanometre.

    Parameters
    ----------
    variance_nm2 : Fraction
        Variance of what is judged. [nm2]
    z : Fraction
        Standard deviations that go with the confidence. [-]

    Returns
    -------
    guard : int
        For words alone: a verdict compares squares and rounds nothing. [nm]

    Raises
    ------
    CalculationInputError
        If the variance is below zero.

    Notes
    -----
    JCGM 106:2012, 8.3.2: a guarded limit lies one guard band inside the tolerance.

    Examples
    --------
    By hand: 2 x 3 = 6.

    >>> guard_band_nm(Fraction(9), Fraction(2))
    6
    """
    if variance_nm2 < 0:
        raise CalculationInputError(
            what="a guard band", why="a variance is below zero", accepted="Give one of 0 or more"
        )
    square = variance_nm2 * z**2
    whole = -(-square.numerator // square.denominator)
    root = isqrt(whole)
    return root if root * root == whole else root + 1
