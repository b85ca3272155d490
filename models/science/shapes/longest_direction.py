"""Longest direction of a ring: the long side of the smallest rectangle that holds it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.science.shapes.rings import FULL_TURN_UDEG, PointNm
from models.science.shapes.rotated_frame import Frame
from models.science.shapes.staking import bearing_of

_HALF_TURN_UDEG = FULL_TURN_UDEG // 2
_QUARTER_UDEG = FULL_TURN_UDEG // 4
_ALIKE = 0.01  # of an area or a side: less is no reason to leave the plan's own axes


@dataclass(frozen=True, slots=True)
class LongestDirection:
    """Longest direction of a ring.

    Attributes
    ----------
    bearing_udeg : int
        From 0 to below 180 degrees. [1e-6 degree]
    is_longer : bool
        Whether it is longer than the way square to it, by more than one in a hundred. [-]
    """

    bearing_udeg: int
    is_longer: bool


def longest_direction(ring: Sequence[PointNm]) -> LongestDirection:
    """Bearing of the longer side of the smallest rectangle that holds a ring.

    Parameters
    ----------
    ring : sequence of PointNm
        Corners in order, not closed. [nm]

    Returns
    -------
    direction : LongestDirection
        Its bearing, and whether it is longer than what lies square to it. [1e-6 degree]

    Notes
    -----
    A side of the smallest rectangle lies on a side of the convex hull (Freeman and Shapira,
    1975, named from memory), so each of these is tried. The plan's own axes are kept where
    their rectangle is within one in a hundred of the smallest: a circle's longest direction
    is north, and so is that of a ring which bounds no ground.

    Examples
    --------
    By inspection: twice as long to the east as to the north.

    >>> corners = [PointNm(0, 0), PointNm(20, 0), PointNm(20, 10), PointNm(0, 10)]
    >>> longest_direction(corners).bearing_udeg
    90000000
    """
    hull = _hull(ring)
    if len(hull) < 3:
        return LongestDirection(0, is_longer=False)
    boxes = [_box(hull, udeg) for udeg in (0, *_ways(hull))]
    least = min(across * along for across, along, _ in boxes)
    across, along, udeg = next(box for box in boxes if box[0] * box[1] <= least * (1 + _ALIKE))
    if along * (1 + _ALIKE) >= across:
        return LongestDirection(udeg, along > across * (1 + _ALIKE))
    return LongestDirection((udeg + _QUARTER_UDEG) % _HALF_TURN_UDEG, is_longer=True)


def _ways(hull: Sequence[PointNm]) -> Iterator[int]:
    """Bearings of the sides of a hull, smallest first."""
    sides = pairwise([*hull, hull[0]])
    yield from sorted({bearing_of(start, end) % _HALF_TURN_UDEG for start, end in sides})


def _box(hull: Sequence[PointNm], bearing_udeg: int) -> tuple[float, float, int]:
    """Extent across a bearing and along it, with the bearing."""
    sine, cosine = Frame(PointNm(0, 0), bearing_udeg).sine_cosine
    across = [x * cosine - y * sine for x, y in hull]
    along = [x * sine + y * cosine for x, y in hull]
    return max(across) - min(across), max(along) - min(along), bearing_udeg


def _hull(ring: Sequence[PointNm]) -> list[PointNm]:
    """Corners of the convex hull, counterclockwise (monotone chain; Andrew 1979, from memory)."""
    corners = sorted(set(ring))
    lower, upper = _chain(corners), _chain(corners[::-1])
    return lower[:-1] + upper[:-1]


def _chain(corners: Sequence[PointNm]) -> list[PointNm]:
    """One side of the hull: corners that turn left all the way."""
    chain: list[PointNm] = []
    for corner in corners:
        while len(chain) > 1 and not _turns_left(chain[-2], chain[-1], corner):
            chain.pop()
        chain.append(corner)
    return chain


def _turns_left(start: PointNm, middle: PointNm, end: PointNm) -> bool:
    """Whether three points turn left, so that the middle one is a corner of the hull."""
    (x0, y0), (x1, y1), (x2, y2) = start, middle, end
    return (x1 - x0) * (y2 - y0) > (y1 - y0) * (x2 - x0)
