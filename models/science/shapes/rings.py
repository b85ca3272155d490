"""Points and closed rings in the local plane, in whole nanometres; no library needed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import isqrt
from typing import NamedTuple

from models.units import LengthStyle, show_length

MICRODEGREES = 1_000_000
"""In one degree."""

FULL_TURN_UDEG = 360 * MICRODEGREES
"""Bearings go round from 0 (north) by way of 90 degrees (east)."""


class PointNm(NamedTuple):
    """A point of the local plane: east and north of its origin, in nm."""

    x_nm: int
    y_nm: int


Ring = tuple[PointNm, ...]
"""Corners of a closed ring in order; the first is not repeated at the end."""


def distance_nm(start: PointNm, end: PointNm) -> int:
    """Straight distance between two points, to the nearest nanometre.

    Parameters
    ----------
    start, end : PointNm
        The points. [nm]

    Returns
    -------
    distance_nm : int
        Their distance. [nm]

    Notes
    -----
    Exact square root in integers (Pythagoras), whatever the size.

    Examples
    --------
    By hand, 3, 4, 5:

    >>> distance_nm(PointNm(0, 0), PointNm(-3_000_000, 4_000_000))
    5000000
    """
    square = (end.x_nm - start.x_nm) ** 2 + (end.y_nm - start.y_nm) ** 2
    root = isqrt(square)
    return root + (square - root * root > root)


def signed_area_nm2(ring: Sequence[PointNm]) -> Fraction:
    """Area inside a ring, positive when its corners run counterclockwise.

    Parameters
    ----------
    ring : sequence of PointNm
        Corners in order, not closed. [nm]

    Returns
    -------
    area_nm2 : Fraction
        Area; a crossing ring counts each part by its own turn. [nm2]

    Notes
    -----
    Exact: half the sum of the cross products of neighbouring corners (the surveyor's
    rule, derived here). Holds for a ring that does not cross itself.

    Examples
    --------
    By hand, a right triangle with legs 3 and 4, both ways round:

    >>> corners = (PointNm(0, 0), PointNm(4, 0), PointNm(4, 3))
    >>> int(signed_area_nm2(corners)), int(signed_area_nm2(corners[::-1]))
    (6, -6)
    """
    twice = sum(
        (a.x_nm * b.y_nm - b.x_nm * a.y_nm) for a, b in zip(ring, _turned(ring), strict=True)
    )
    return Fraction(twice, 2)


def perimeter_nm(ring: Sequence[PointNm]) -> int:
    """Length once round a ring.

    Parameters
    ----------
    ring : sequence of PointNm
        Corners in order, not closed. [nm]

    Returns
    -------
    perimeter_nm : int
        Sum of its sides, the closing one included. [nm]

    Notes
    -----
    Each side is rounded to the nanometre. Derived here.

    Examples
    --------
    By hand, sides 3, 4 and 5:

    >>> perimeter_nm((PointNm(0, 0), PointNm(4, 0), PointNm(4, 3)))
    12
    """
    return sum(distance_nm(a, b) for a, b in zip(ring, _turned(ring), strict=True))


def path_length_nm(path: Sequence[PointNm]) -> int:
    """Length along a path from its first point to its last.

    Parameters
    ----------
    path : sequence of PointNm
        Points in order. [nm]

    Returns
    -------
    length_nm : int
        Sum of its straight pieces. [nm]

    Notes
    -----
    Each piece is rounded to the nanometre. Derived here.

    Examples
    --------
    By hand, 4 and then 3:

    >>> path_length_nm((PointNm(0, 0), PointNm(4, 0), PointNm(4, 3)))
    7
    """
    return sum(distance_nm(a, b) for a, b in pairwise(path))


def show_place(point: PointNm) -> str:
    """Where a point lies, for a sentence that names a fault.

    Parameters
    ----------
    point : PointNm
        The point. [nm]

    Returns
    -------
    words : str
        East and north of the origin, in metres and feet. [-]

    Notes
    -----
    Rounded to the millimetre and the hundredth of a foot.

    Examples
    --------
    By hand, 1 ft is 0.3048 m:

    >>> show_place(PointNm(304_800_000, 0))
    'east 0.305 m, north 0.000 m (1.00 ft, 0.00 ft)'
    """
    east, north = (show_length(nm, LengthStyle.M_1000) for nm in point)
    feet = ", ".join(show_length(nm, LengthStyle.FT_100) for nm in point)
    return f"east {east}, north {north} ({feet})"


def show_both(length_nm: int) -> str:
    """A length for a sentence of which the reader's units are not known.

    Parameters
    ----------
    length_nm : int
        The length. [nm]

    Returns
    -------
    words : str
        In metres and feet. [-]

    Notes
    -----
    Rounded to the millimetre and the hundredth of a foot.

    Examples
    --------
    By hand:

    >>> show_both(304_800_000)
    '0.305 m (1.00 ft)'
    """
    metres = show_length(length_nm, LengthStyle.M_1000)
    return f"{metres} ({show_length(length_nm, LengthStyle.FT_100)})"


def _turned(ring: Sequence[PointNm]) -> list[PointNm]:
    """The ring begun one corner later, so that each corner meets its next."""
    return [*ring[1:], *ring[:1]]
