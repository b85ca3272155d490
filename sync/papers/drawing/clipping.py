"""Cuts lines off at the edge of a window, so that nothing is drawn over the frame."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from sync.papers.drawing.primitives import Point

Run = tuple[Point, ...]


def clip_segment(start: Point, end: Point, half: Point) -> tuple[Point, Point] | None:
    """Part of a segment inside a window of ``half`` its sides round the origin; None if outside.

    Examples
    --------
    >>> clip_segment((-4.0, 0.0), (4.0, 0.0), (1.0, 1.0))
    ((-1.0, 0.0), (1.0, 0.0))
    """
    low, high = 0.0, 1.0
    for axis in (0, 1):
        step = end[axis] - start[axis]
        for sign in (-1, 1):
            room = half[axis] - sign * start[axis]
            if step == 0:
                if room < 0:
                    return None
                continue
            share = room / (sign * step)
            if sign * step > 0:
                high = min(high, share)
            else:
                low = max(low, share)
    if low > high:
        return None
    return _along(start, end, low), _along(start, end, high)


def _along(start: Point, end: Point, share: float) -> Point:
    if share in (0.0, 1.0):
        return end if share else start
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def clip_course(points: Sequence[Point], half: Point) -> list[Run]:
    """Runs of a course that lie inside a window round the origin."""
    runs: list[list[Point]] = []
    for start, end in pairwise(points):
        found = clip_segment(start, end, half)
        if found is None or found[0] == found[1]:
            continue
        if runs and runs[-1][-1] == found[0]:
            runs[-1].append(found[1])
        else:
            runs.append(list(found))
    return [tuple(run) for run in runs]


def is_inside(point: Point, half: Point) -> bool:
    """Whether a point lies in a window round the origin."""
    return abs(point[0]) <= half[0] and abs(point[1]) <= half[1]


def are_inside(points: Iterable[Point], half: Point) -> bool:
    """Whether every point does."""
    return all(is_inside(point, half) for point in points)
