"""Places of outlines to each other: how far apart, and whether their ground overlaps.

Whole numbers and fractions alone; no library needed.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import isqrt
from typing import NamedTuple

from models.science.shapes.rings import PointNm, Ring

_FEW = 8
_Side = tuple[PointNm, PointNm]


class _Box(NamedTuple):
    """The upright rectangle that holds some points, nm."""

    west: int
    south: int
    east: int
    north: int


def place_in_ring(point: tuple[int | Fraction, int | Fraction], ring: Ring) -> int:
    """Where a point lies to a ring: inside, on it, or outside.

    Parameters
    ----------
    point : tuple of int or Fraction
        East and north. [nm]
    ring : tuple of PointNm
        Corners in order, not closed. [nm]

    Returns
    -------
    place : int
        1 inside, 0 on an edge or corner, -1 outside. [-]

    Notes
    -----
    Exact: counts the sides that a ray to the east crosses (the even-odd rule, derived here).

    Examples
    --------
    By hand, a square of 2:

    >>> square = (PointNm(0, 0), PointNm(2, 0), PointNm(2, 2), PointNm(0, 2))
    >>> [place_in_ring(point, square) for point in ((1, 1), (2, 1), (3, 1))]
    [1, 0, -1]
    """
    x, y = point
    is_inside = False
    for a, b in _sides(ring):
        turn = (b.x_nm - a.x_nm) * (y - a.y_nm) - (b.y_nm - a.y_nm) * (x - a.x_nm)
        low, high = sorted((a.y_nm, b.y_nm))
        left, right = sorted((a.x_nm, b.x_nm))
        if not turn and low <= y <= high and left <= x <= right:
            return 0
        if (a.y_nm > y) != (b.y_nm > y) and (turn > 0) == (b.y_nm > a.y_nm):
            is_inside = not is_inside
    return 1 if is_inside else -1


def gap_nm(course: Sequence[PointNm], ring: Ring, *, is_closed: bool = True) -> int:
    """Least distance from an outline, or a course, to the ground within a ring.

    Parameters
    ----------
    course : sequence of PointNm
        Corners in order. [nm]
    ring : tuple of PointNm
        Corners of the other, in order, not closed. [nm]
    is_closed : bool
        Whether the course bounds ground that counts with it. [-]

    Returns
    -------
    gap_nm : int
        The distance, rounded down; 0 where they touch, cross, or one lies in the other. [nm]

    Notes
    -----
    Exact in whole numbers: the square of a distance to a side is rounded down once. Sides
    whose boxes lie farther apart than what is found already are not looked at. Derived here.

    Examples
    --------
    By hand, two squares of 2 that lie 3 apart:

    >>> square = (PointNm(0, 0), PointNm(2, 0), PointNm(2, 2), PointNm(0, 2))
    >>> gap_nm([PointNm(x + 5, y) for x, y in square], square)
    3
    """
    if place_in_ring(course[0], ring) >= 0:
        return 0
    if is_closed and place_in_ring(ring[0], tuple(course)) >= 0:
        return 0
    own = _sides(tuple(course)) if is_closed else list(pairwise(course))
    return isqrt(_square_gap(own or [(course[0], course[0])], _sides(ring), None))


def grounds_overlap(first: Ring, second: Ring) -> bool:
    """Whether the ground within two rings has more in common than an edge.

    Parameters
    ----------
    first, second : tuple of PointNm
        Corners in order, not closed; neither ring crosses itself. [nm]

    Returns
    -------
    overlap : bool
        Whether some ground lies in both. [-]

    Notes
    -----
    Exact: a side is parted where it meets the other ring, and the middle of each part is
    looked for inside it; two rings of the same ground have an inner point in common. Derived
    here.

    Examples
    --------
    By hand, two squares of 2 that share an edge, and then half of their ground:

    >>> square = (PointNm(0, 0), PointNm(2, 0), PointNm(2, 2), PointNm(0, 2))
    >>> [
    ...     grounds_overlap(square, tuple(PointNm(x + off, y) for x, y in square))
    ...     for off in (2, 1)
    ... ]
    [False, True]
    """
    if _lie_apart(_box(first), _box(second), touching=True):
        return False
    return (
        any(runs_through(a, b, second) for a, b in _sides(first))
        or any(runs_through(a, b, first) for a, b in _sides(second))
        or place_in_ring(_inner_point(first), second) > 0
    )


def runs_through(start: PointNm, end: PointNm, ring: Ring) -> bool:
    """Whether a straight line runs through the ground within a ring.

    Parameters
    ----------
    start, end : PointNm
        Its ends. [nm]
    ring : tuple of PointNm
        Corners in order, not closed. [nm]

    Returns
    -------
    runs : bool
        Whether any of it lies inside; along an edge is outside. [-]

    Notes
    -----
    Exact, as ``grounds_overlap`` is. Derived here.

    Examples
    --------
    By hand, along the edge of a square of 2 and across it:

    >>> square = (PointNm(0, 0), PointNm(2, 0), PointNm(2, 2), PointNm(0, 2))
    >>> runs_through(PointNm(0, 0), PointNm(2, 0), square)
    False
    >>> runs_through(PointNm(-1, 1), PointNm(5, 1), square)
    True
    """
    own = _box((start, end))
    if _lie_apart(own, _box(ring), touching=False):
        return False
    meets = {Fraction(0), Fraction(1)}
    for a, b in _sides(ring):
        if not _lie_apart(own, _box((a, b)), touching=False):
            meets.update(_meetings(start, end, a, b))
    parts = sorted(meets)
    middles = [(low + high) / 2 for low, high in pairwise(parts)]
    way_x, way_y = end.x_nm - start.x_nm, end.y_nm - start.y_nm
    return any(
        place_in_ring((start.x_nm + share * way_x, start.y_nm + share * way_y), ring) > 0
        for share in middles
    )


def _sides(ring: Ring) -> list[_Side]:
    """Sides of a ring, the closing one included."""
    return list(zip(ring, (*ring[1:], ring[0]), strict=True))


def _box(points: Sequence[PointNm]) -> _Box:
    xs, ys = [point.x_nm for point in points], [point.y_nm for point in points]
    return _Box(min(xs), min(ys), max(xs), max(ys))


def _lie_apart(one: _Box, other: _Box, *, touching: bool) -> bool:
    """Whether two boxes lie apart; ``touching`` counts as apart where asked."""
    across = max(one.west, other.west) - min(one.east, other.east)
    along = max(one.south, other.south) - min(one.north, other.north)
    return max(across, along) >= 0 if touching else max(across, along) > 0


def _square_between(one: _Box, other: _Box) -> int:
    """Square of the distance between two boxes; 0 where they touch."""
    across = max(one.west - other.east, other.west - one.east, 0)
    along = max(one.south - other.north, other.south - one.north, 0)
    return across * across + along * along


def _square_gap(own: list[_Side], others: list[_Side], best: int | None) -> int:
    """Square of the least distance between sides, not looking where it can't be less."""
    if len(own) < len(others):
        own, others = others, own
    if len(own) <= _FEW:
        found = min(_between_sides(*one, *other) for one in own for other in others)
        return found if best is None else min(best, found)
    half = len(own) // 2
    facing = _box_of(others)
    parts = [(_square_between(_box_of(part), facing), part) for part in (own[:half], own[half:])]
    for square, part in sorted(parts, key=lambda one: one[0]):
        if best is None or square < best:
            best = _square_gap(part, others, best)
    return best or 0


def _box_of(sides: list[_Side]) -> _Box:
    return _box([point for side in sides for point in side])


def _between_sides(a: PointNm, b: PointNm, c: PointNm, d: PointNm) -> int:
    """Square of the least distance between two sides, rounded down; 0 where they meet."""
    if _meetings(a, b, c, d):
        return 0
    return min(
        _to_side(a, c, d),
        _to_side(b, c, d),
        _to_side(c, a, b),
        _to_side(d, a, b),
    )


def _to_side(point: PointNm, a: PointNm, b: PointNm) -> int:
    """Square of the distance from a point to a side, rounded down."""
    way_x, way_y = b.x_nm - a.x_nm, b.y_nm - a.y_nm
    off_x, off_y = point.x_nm - a.x_nm, point.y_nm - a.y_nm
    along, square = way_x * off_x + way_y * off_y, way_x * way_x + way_y * way_y
    if along <= 0:
        return int(off_x * off_x + off_y * off_y)
    if along >= square:
        return int((point.x_nm - b.x_nm) ** 2 + (point.y_nm - b.y_nm) ** 2)
    turn = way_x * off_y - way_y * off_x
    return int(turn * turn // square)


def _meetings(a: PointNm, b: PointNm, c: PointNm, d: PointNm) -> list[Fraction]:
    """Shares of the way from a to b at which it meets the side from c to d."""
    ux, uy, vx, vy = b.x_nm - a.x_nm, b.y_nm - a.y_nm, d.x_nm - c.x_nm, d.y_nm - c.y_nm
    cross, square = ux * vy - uy * vx, ux * ux + uy * uy
    if cross:
        along = Fraction((c.x_nm - a.x_nm) * vy - (c.y_nm - a.y_nm) * vx, cross)
        beside = Fraction((c.x_nm - a.x_nm) * uy - (c.y_nm - a.y_nm) * ux, cross)
        return [along] if 0 <= along <= 1 and 0 <= beside <= 1 else []
    if not square or ux * (c.y_nm - a.y_nm) - uy * (c.x_nm - a.x_nm):
        return []
    shares = sorted(
        Fraction(ux * (p.x_nm - a.x_nm) + uy * (p.y_nm - a.y_nm), square) for p in (c, d)
    )
    if shares[1] < 0 or shares[0] > 1:
        return []
    return [max(shares[0], Fraction(0)), min(shares[1], Fraction(1))]


def _inner_point(ring: Ring) -> tuple[Fraction, Fraction]:
    """A point strictly inside a ring: half-way along the first stretch that a level line has."""
    heights = sorted({point.y_nm for point in ring})
    y = Fraction(heights[0] + heights[1], 2) if len(heights) > 1 else Fraction(heights[0])
    crossings = sorted(
        a.x_nm + (b.x_nm - a.x_nm) * (y - a.y_nm) / (b.y_nm - a.y_nm)
        for a, b in _sides(ring)
        if (a.y_nm > y) != (b.y_nm > y)
    )
    if len(crossings) < 2:
        return Fraction(ring[0].x_nm), y
    return (crossings[0] + crossings[1]) / 2, y
