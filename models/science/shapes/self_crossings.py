"""Where a ring crosses, touches or doubles back on itself."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.science.shapes.geometry_library import numpy, shapely
from models.science.shapes.rings import PointNm, Ring

_SIDES_AT_ONCE = 256  # a star of thousands of sides would fill the memory with pairs


@dataclass(frozen=True, slots=True)
class CrossedSides:
    """Two sides that meet where they should not.

    Attributes
    ----------
    first, second : int
        Sides, counted from 1; side 1 runs from corner 1 to corner 2. [-]
    at : PointNm
        Where they meet, to the nearest nanometre. [nm]
    """

    first: int
    second: int
    at: PointNm


def find_crossed_sides(ring: Ring, at_most: int = 10) -> tuple[CrossedSides, ...]:
    """Pairs of sides that cross, touch or lie on each other, in order of the ring.

    Parameters
    ----------
    ring : tuple of PointNm
        Corners in order, not closed, none twice in a row. [nm]
    at_most : int
        How many to find before giving up. [-]

    Returns
    -------
    crossed : tuple of CrossedSides
        The pairs; empty for a ring that is sound. [nm]

    Notes
    -----
    Which sides meet is decided by the geometry library's robust predicate on whole
    numbers below 2**53, where a float is exact; the place is worked out in fractions.
    Derived here.

    Examples
    --------
    By hand: a bow tie with corners at 0 and 2 crosses in its middle.

    >>> bow = (PointNm(0, 0), PointNm(2, 2), PointNm(2, 0), PointNm(0, 2))
    >>> [(pair.first, pair.second, tuple(pair.at)) for pair in find_crossed_sides(bow)]
    [(1, 3, (1, 1))]
    """
    count = len(ring)
    found = [pair for side in range(count) if (pair := _doubled_back(ring, side))]
    corners = numpy.array(ring, dtype=float)
    sides = shapely.linestrings(numpy.stack([corners, numpy.roll(corners, -1, axis=0)], axis=1))
    tree = shapely.STRtree(sides)
    for begin in range(0, count, _SIDES_AT_ONCE):
        if len(found) >= at_most:
            break
        pairs = tree.query(sides[begin : begin + _SIDES_AT_ONCE], predicate="intersects").T
        for here, there in sorted((int(a) + begin, int(b)) for a, b in pairs):
            if here + 1 < there and not (here == 0 and there == count - 1):
                found.append(CrossedSides(here + 1, there + 1, _meeting(ring, here, there)))
                if len(found) >= at_most:
                    break
    return tuple(sorted(found[:at_most], key=lambda pair: (pair.first, pair.second)))


def _doubled_back(ring: Ring, side: int) -> CrossedSides | None:
    """A side and the next, if the next goes back along it."""
    count = len(ring)
    a, b, c = (ring[(side + step) % count] for step in range(3))
    cross = (b.x_nm - a.x_nm) * (c.y_nm - b.y_nm) - (b.y_nm - a.y_nm) * (c.x_nm - b.x_nm)
    dot = (b.x_nm - a.x_nm) * (c.x_nm - b.x_nm) + (b.y_nm - a.y_nm) * (c.y_nm - b.y_nm)
    if cross or dot >= 0:
        return None
    first, second = sorted((side + 1, (side + 1) % count + 1))
    return CrossedSides(first, second, b)


def _meeting(ring: Ring, here: int, there: int) -> PointNm:
    """The point where two sides meet; of two that lie on each other, a corner they share."""
    count = len(ring)
    a, b = ring[here], ring[(here + 1) % count]
    c, d = ring[there], ring[(there + 1) % count]
    ux, uy, vx, vy = b.x_nm - a.x_nm, b.y_nm - a.y_nm, d.x_nm - c.x_nm, d.y_nm - c.y_nm
    cross = ux * vy - uy * vx
    if cross:
        share = Fraction((c.x_nm - a.x_nm) * vy - (c.y_nm - a.y_nm) * vx, cross)
        return PointNm(round(a.x_nm + share * ux), round(a.y_nm + share * uy))
    return min(point for point in (a, b, c, d) if _is_on(point, a, b) and _is_on(point, c, d))


def _is_on(point: PointNm, start: PointNm, end: PointNm) -> bool:
    """Tell whether a point of a side's line lies between the side's ends."""
    xs, ys = sorted((start.x_nm, end.x_nm)), sorted((start.y_nm, end.y_nm))
    return xs[0] <= point.x_nm <= xs[1] and ys[0] <= point.y_nm <= ys[1]
