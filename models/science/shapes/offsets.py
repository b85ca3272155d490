"""Outlines from measurements on the ground: offsets from a baseline, a rectangle, a circle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import acos, ceil, cos, pi, sin

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.science.shapes.outline import (
    LEAST_KEEP_OUT_NM2,
    MOST_CORNERS,
    Outline,
    Trace,
    require_outline,
)
from models.science.shapes.rings import PointNm, show_both
from models.science.shapes.rotated_frame import Frame

ORIGIN = PointNm(0, 0)
"""Where a plane begins that is measured from nothing else."""


@dataclass(frozen=True, slots=True)
class OffsetRow:
    """Offsets measured square to the baseline at one station.

    Attributes
    ----------
    station_nm : int
        Along the baseline from its beginning. [nm]
    left_nm, right_nm : int or None
        To the edge on the left and right, looking up the baseline; negative where the
        edge is on the other side; None where it was not measured. [nm]
    """

    station_nm: int
    left_nm: int | None
    right_nm: int | None


def trace_offsets(
    rows: Sequence[OffsetRow], origin: PointNm = ORIGIN, bearing_udeg: int = 0
) -> Trace:
    """The outline that a baseline with offsets describes.

    It runs up the right edge and back down the left::

        left  o----o----o
        base  +----+----+--> bearing
        right o----o----o

    Parameters
    ----------
    rows : sequence of OffsetRow
        Stations in growing order with their offsets. [nm]
    origin : PointNm
        Where the baseline begins. [nm]
    bearing_udeg : int
        Where it runs, clockwise from north. [1e-6 degree]

    Returns
    -------
    trace : Trace
        Counterclockwise, as measured: it may still cross itself. [nm]

    Raises
    ------
    CalculationInputError
        If there are fewer than two stations, they don't grow, or the edges change sides.

    Notes
    -----
    Edges are straight between stations, so take one wherever the edge bends. An edge
    that meets the other at a station (both on one point) is one corner. Derived here.

    Examples
    --------
    By hand: 20 m of baseline to the north, 3 m to the left and 4 m to the right.

    >>> rows = [OffsetRow(0, 3 * 10**9, 4 * 10**9), OffsetRow(20 * 10**9, 3 * 10**9, 4 * 10**9)]
    >>> [(point.x_nm // 10**9, point.y_nm // 10**9) for point in trace_offsets(rows).points]
    [(4, 0), (4, 20), (-3, 20), (-3, 0)]
    """
    _refuse_bad_rows(rows)
    frame = Frame(origin, bearing_udeg)
    right = [frame.point(row.right_nm, row.station_nm) for row in rows if row.right_nm is not None]
    left = [frame.point(-row.left_nm, row.station_nm) for row in rows if row.left_nm is not None]
    points = [*right, *reversed(left)]
    kept = [point for before, point in pairwise([None, *points]) if point != before]
    if len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    return Trace(tuple(point for point in kept if point is not None), name="from the baseline")


def _refuse_bad_rows(rows: Sequence[OffsetRow]) -> None:
    """Refuse offsets that make no outline, with the station."""
    why = ""
    if len(rows) < 2:
        why = f"it has {CountedNoun(len(rows)):station|stations}, and an outline needs 2 or more"
    for before, row in pairwise(rows):
        if row.station_nm <= before.station_nm and not why:
            here, there = show_both(row.station_nm), show_both(before.station_nm)
            why = f"station {here} follows station {there}, and stations grow"
    for row in rows:
        if row.left_nm is not None and row.right_nm is not None and not why:
            width_nm = row.left_nm + row.right_nm
            if width_nm < 0:
                why = (
                    f"at station {show_both(row.station_nm)} the left edge lies "
                    f"{show_both(-width_nm)} to the right of the right edge"
                )
    if why:
        raise CalculationInputError(
            what="the outline from the baseline",
            why=why,
            accepted="Give growing stations, each with its offset to the left, the right or both",
        )


def rectangle(
    width_nm: int, length_nm: int, corner: PointNm = ORIGIN, bearing_udeg: int = 0
) -> Outline:
    """A rectangle whose long way runs on a bearing.

    Parameters
    ----------
    width_nm, length_nm : int
        Across the bearing and along it. [nm]
    corner : PointNm
        The near corner on the left, looking along the bearing. [nm]
    bearing_udeg : int
        Clockwise from north. [1e-6 degree]

    Returns
    -------
    outline : Outline
        Its four corners, counterclockwise. [nm]

    Raises
    ------
    CalculationInputError
        If a side is not above zero.
    OutlineError
        If it is smaller than any keep-out.

    Notes
    -----
    Corners of a turned rectangle are rounded to the nanometre. Derived here.

    Examples
    --------
    By hand, 6 m by 10 m:

    >>> int(rectangle(6 * 10**9, 10 * 10**9).area_nm2 / 10**18)
    60
    """
    if min(width_nm, length_nm) <= 0:
        raise CalculationInputError(
            what="a rectangle",
            why=f"its sides are {show_both(width_nm)} and {show_both(length_nm)}",
            accepted="Give two sides above zero",
        )
    frame = Frame(corner, bearing_udeg)
    across_along = ((0, 0), (width_nm, 0), (width_nm, length_nm), (0, length_nm))
    points = tuple(frame.point(*at) for at in across_along)
    return require_outline(Trace(points, name="rectangle"), LEAST_KEEP_OUT_NM2)


def circle(radius_nm: int, centre: PointNm = ORIGIN, chord_error_nm: int = 100_000) -> Outline:
    r"""A circle as a ring of straight chords, inside it by no more than a stated error.

    .. math::
        e = r (1 - \cos(\pi / n))

    Parameters
    ----------
    radius_nm : int
        Radius. [nm]
    centre : PointNm
        Its middle. [nm]
    chord_error_nm : int
        How far a chord may lie inside the circle at most. [nm]

    Returns
    -------
    outline : Outline
        Corners on the circle, a multiple of four, the first due east. [nm]

    Raises
    ------
    CalculationInputError
        If the radius or the error is not above zero, the error is not below the radius,
        or more corners would be needed than are read.

    Notes
    -----
    The area is short by about 4 e / 3 r of itself. Formula of the height of an arc, derived
    here.

    Examples
    --------
    By hand: n = pi / acos(1 - 0.01) = 22.2, so 24 corners; 12 r2 sin(15 degrees) = 3.106.

    >>> ring = circle(10**10, chord_error_nm=10**8)
    >>> len(ring.ring), f"{float(ring.area_nm2) / 1e20:.3f}"
    (24, '3.106')
    """
    corners = 0
    if 0 < chord_error_nm < radius_nm:
        corners = max(8, 4 * ceil(pi / acos(1 - chord_error_nm / radius_nm) / 4 - 1e-9))
    if not 0 < corners <= MOST_CORNERS:
        raise CalculationInputError(
            what="a circle",
            why=f"its radius is {show_both(radius_nm)} and its chord error {chord_error_nm} nm",
            accepted=f"Give an error below the radius that needs at most {MOST_CORNERS} corners",
        )
    turns = (2 * pi * number / corners for number in range(corners))
    points = tuple(
        PointNm(
            centre.x_nm + round(radius_nm * cos(turn)), centre.y_nm + round(radius_nm * sin(turn))
        )
        for turn in turns
    )
    return require_outline(Trace(points, name="circle"), LEAST_KEEP_OUT_NM2)
