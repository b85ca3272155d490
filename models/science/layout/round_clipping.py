"""Upright lines less circles and corridors, worked out from their radius and never from chords."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil, floor, hypot, isqrt

from models.science.layout.clipping import Pieces
from models.science.shapes.geometry_library import numpy
from models.science.shapes.rings import PointNm

Gap = tuple[int, int]
"""From where to where a line is lost, along it."""


def clip_round(
    pieces: Pieces, across: Sequence[int], courses: Iterable[tuple[Sequence[PointNm], int]]
) -> Pieces:
    r"""Pieces of upright lines less what lies within a distance of points and courses.

    A line at an offset o from the middle of a circle of radius R loses

    .. math::
        2 \sqrt{R^2 - o^2}

    and a corridor is the circles at its corners with the strips between them.

    Parameters
    ----------
    pieces : Pieces
        What there is of the lines. [nm]
    across : sequence of int
        Where the lines stand, growing. [nm]
    courses : iterable of (sequence of PointNm, int)
        A point alone or the corners of a course, in the frame of the lines, with the
        distance that lines keep from it. [nm]

    Returns
    -------
    left : Pieces
        What is left, in the same order. [nm]

    Notes
    -----
    Ends are rounded to the nanometre away from what is kept clear, so no place of a piece
    is nearer than the distance, and a nanometre more would be. A polygon drawn inside a
    circle would let a blade nearer, by how many chords it has. Derived here.

    Examples
    --------
    By hand: 3 off the middle of a circle of 5, a line loses 4 to either side.

    >>> line = Pieces(numpy.array([0]), numpy.array([-9.0]), numpy.array([9.0]))
    >>> left = clip_round(line, [3], [([PointNm(0, 0)], 5)])
    >>> left.begins.tolist(), left.ends.tolist()
    ([-9.0, 4.0], [-4.0, 9.0])
    """
    gaps: defaultdict[int, list[Gap]] = defaultdict(list)
    for corners, reach_nm in courses:
        for line, gap in _gaps(corners, reach_nm, across):
            gaps[line].append(gap)
    if not gaps:
        return pieces
    rows: list[tuple[int, float, float]] = []
    for line, begin, end in zip(*(column.tolist() for column in pieces), strict=True):
        rows += [(line, *left) for left in _left(begin, end, sorted(gaps.get(line, ())))]
    columns = list(zip(*rows, strict=True)) or [(), (), ()]
    return Pieces(
        *(numpy.array(column, dtype=old.dtype) for column, old in zip(columns, pieces, strict=True))
    )


def _left(begin: float, end: float, gaps: list[Gap]) -> Iterator[tuple[float, float]]:
    """What gaps in order leave of a piece."""
    for low, high in gaps:
        if high <= begin or low >= end or low == high:
            continue
        if low > begin:
            yield begin, float(low)
        begin = float(high)
    if begin < end:
        yield begin, end


def _gaps(
    corners: Sequence[PointNm], reach_nm: int, across: Sequence[int]
) -> Iterator[tuple[int, Gap]]:
    """What lines lose to the circles at the corners of a course and to the strips between."""
    for x_nm, y_nm in corners:
        for line in _in_reach(across, x_nm - reach_nm, x_nm + reach_nm):
            square = reach_nm**2 - (across[line] - x_nm) ** 2
            half_nm = isqrt(square - 1) + 1 if square > 0 else 0
            yield line, (y_nm - half_nm, y_nm + half_nm)
    for start, end in pairwise(corners):
        low, high = sorted((start.x_nm, end.x_nm))
        for line in _in_reach(across, low - reach_nm, high + reach_nm):
            gap = _strip(start, end, reach_nm, across[line])
            if gap is not None:
                yield line, gap


def _in_reach(across: Sequence[int], low_nm: int, high_nm: int) -> range:
    """Lines between two places across."""
    return range(bisect_left(across, low_nm), bisect_right(across, high_nm))


def _strip(start: PointNm, end: PointNm, reach_nm: int, x_nm: int) -> Gap | None:
    """What a line loses to the strip along one side of a course, without its round ends."""
    way_x, way_y = end.x_nm - start.x_nm, end.y_nm - start.y_nm
    length_nm = hypot(way_x, way_y)
    if not length_nm:
        return None
    off_nm = x_nm - start.x_nm
    bounds = []
    # Beside the side: | off * way_y - along * way_x | <= reach * length.
    # Between its ends: 0 <= off * way_x + along * way_y <= length ** 2.
    for rate, least, most in (
        (way_x, off_nm * way_y - reach_nm * length_nm, off_nm * way_y + reach_nm * length_nm),
        (way_y, -float(off_nm) * way_x, length_nm**2 - float(off_nm) * way_x),
    ):
        if rate:
            bounds.append(sorted((least / rate, most / rate)))
        elif not least < 0 < most:
            return None
    low, high = max(one[0] for one in bounds), min(one[1] for one in bounds)
    return (start.y_nm + floor(low), start.y_nm + ceil(high)) if low < high else None
