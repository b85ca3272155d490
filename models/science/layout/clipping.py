"""Upright lines clipped to a shape, all of them in one sweep over its sides."""

from __future__ import annotations

from typing import Any, Literal, NamedTuple

from models.science.shapes.geometry_library import numpy, shapely

TOUCH_NM = 1_000.0
"""A line that only touches a corner is not cut in two by it."""


class Pieces(NamedTuple):
    """Pieces of lines as columns, by line and then upwards.

    Attributes
    ----------
    lines : numpy array of int
        Which line, from 0. [-]
    begins, ends : numpy array of float
        From where to where along it, whole. [nm]
    """

    lines: Any
    begins: Any
    ends: Any


def clip_upright(shape: Any, across: Any) -> Pieces:
    """Pieces of upright lines inside a shape or on its edge; pieces that touch are one.

    Every side crosses the lines from its left end, included, to its right end, excluded, so
    that each ring crosses each line an even number of times; between odd and even crossings
    the line is inside::

        line      crossings y1 < y2 < y3 < y4     pieces (y1, y2), (y3, y4)

    Parameters
    ----------
    shape : shapely Polygon or MultiPolygon
        Valid, counted from the same origin. [nm]
    across : numpy array of float
        Where the lines stand, growing. [nm]

    Returns
    -------
    pieces : Pieces
        What lies inside. [nm]

    Notes
    -----
    Lines through a corner are swept once more with right ends included in place of left
    ones, and have what either sweep gives: so a line along an upright side, left or right,
    is in. Good to what a float tells apart: about a ten-thousandth of a nanometre on a
    kilometre. The rule of odd and even, derived here; the overlay of the geometry library
    gives the same pieces in about ten times the time.

    Examples
    --------
    By hand: 4 by 3 less 2 by 1 in its middle, cut at 1.5 and 3.5.

    >>> from shapely import Polygon
    >>> hole = [(1, 1), (3, 1), (3, 2), (1, 2)]
    >>> nm = numpy.array([[0, 0], [4, 0], [4, 3], [0, 3]]) * 1e9
    >>> shape = Polygon(nm, [numpy.array(hole) * 1e9])
    >>> pieces = clip_upright(shape, numpy.array([1.5e9, 3.5e9]))
    >>> pieces.lines.tolist(), (pieces.begins / 1e9).tolist(), (pieces.ends / 1e9).tolist()
    ([0, 0, 1], [0.0, 2.0, 0.0], [1.0, 3.0, 3.0])
    """
    starts, stops = _sides(shape)
    pieces = _swept(starts, stops, across, "left")
    on_corner = numpy.flatnonzero(numpy.isin(across, starts[:, 0]))
    if not len(on_corner):
        return pieces
    other = _swept(starts, stops, across[on_corner], "right")
    return _either(pieces, other._replace(lines=on_corner[other.lines]), on_corner)


def _swept(starts: Any, stops: Any, across: Any, rule: Literal["left", "right"]) -> Pieces:
    """Pieces of lines between odd and even crossings, a side having its left or right end."""
    first = numpy.searchsorted(across, numpy.minimum(starts[:, 0], stops[:, 0]), rule)
    after = numpy.searchsorted(across, numpy.maximum(starts[:, 0], stops[:, 0]), rule)
    counts = after - first
    side = numpy.repeat(numpy.arange(len(counts)), counts)
    lines = numpy.arange(len(side)) + numpy.repeat(first - numpy.cumsum(counts) + counts, counts)
    x1, y1 = starts[side].T
    x2, y2 = stops[side].T
    at = y1 + (across[lines] - x1) / (x2 - x1) * (y2 - y1)
    order = numpy.lexsort((at, lines))
    at, owners = at[order], lines[order][::2]
    return _joined(owners, numpy.rint(at[::2]), numpy.rint(at[1::2]))


def _either(pieces: Pieces, other: Pieces, on_corner: Any) -> Pieces:
    """What either has, for the few lines that pass through a corner."""
    is_other = numpy.isin(pieces.lines, on_corner)
    rows = [
        *zip(*(column[is_other].tolist() for column in pieces), strict=True),
        *zip(*(column.tolist() for column in other), strict=True),
    ]
    merged: list[tuple[int, float, float]] = []
    for line, begin, end in sorted(rows):
        if merged and merged[-1][0] == line and begin - merged[-1][2] <= TOUCH_NM:
            merged[-1] = (line, merged[-1][1], max(merged[-1][2], end))
        else:
            merged.append((line, begin, end))
    alone = Pieces(*(column[~is_other] for column in pieces))
    added = list(zip(*merged, strict=True)) or [(), (), ()]
    joined = [
        numpy.concatenate([column, numpy.array(more, dtype=column.dtype)])
        for column, more in zip(alone, added, strict=True)
    ]
    order = numpy.lexsort((joined[1], joined[0]))
    return Pieces(*(column[order] for column in joined))


def _sides(shape: Any) -> tuple[Any, Any]:
    """Sides of all rings of a shape: where each begins and where it ends."""
    points, ring = shapely.get_coordinates(
        shapely.get_rings(shapely.get_parts(shape)), return_index=True
    )
    is_side = ring[1:] == ring[:-1]
    return points[:-1][is_side], points[1:][is_side]


def _joined(owners: Any, begins: Any, stops: Any) -> Pieces:
    """Pieces without those of no length, and those that touch made one."""
    is_long = stops > begins
    owners, begins, stops = owners[is_long], begins[is_long], stops[is_long]
    is_new = numpy.ones(len(owners), dtype=bool)
    is_new[1:] = (owners[1:] != owners[:-1]) | (begins[1:] - stops[:-1] > TOUCH_NM)
    is_last = numpy.ones(len(owners), dtype=bool)
    is_last[:-1] = is_new[1:]
    return Pieces(owners[is_new], begins[is_new], stops[is_last])
