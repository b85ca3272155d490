"""Picks the lines of a plan that are named on the glass, only where there is room."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture, Point, Window

MOST_LABELS = 70
ROUND_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
STANDS_OUT = (LineState.SELECTED, LineState.COLLECTOR, LineState.OUT)
LEAST_LENGTHS = 2.2  # a line seen for less than this many times its name goes without
Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Label:
    """A name, the world point it stands at, and its size in pixels; centred on the point."""

    text: str
    at: Point
    wide_px: float
    high_px: float


def labels_of(
    picture: PlanPicture,
    window: Window,
    view: Box,
    high_px: float,
    wide_of: Callable[[str], float],
) -> list[Label]:
    """Return the names to show in a view (left, low, right, top) in pixels.

    Lines that stand out are named first, the others at a round step, as a ruler
    is; a name that would lie on another is left out.
    """
    middle = ((view[0] + view[2]) / 2, (view[1] + view[3]) / 2)
    taken: list[Box] = []
    found: list[Label] = []
    for line in _in_order(picture, window.scale, high_px):
        seen = _seen_part(line, window, view, middle)
        wide = wide_of(line.label)
        if seen is None or math.dist(*seen) < LEAST_LENGTHS * wide:
            continue
        for place in _places(seen, wide, high_px):
            box = _around(place, wide, high_px)
            if _is_inside(box, view) and not any(_meet(box, other) for other in taken):
                taken.append(box)
                found.append(Label(line.label, window.world(place, middle), wide, high_px))
                break
        if len(found) == MOST_LABELS:
            break
    return found


def _in_order(picture: PlanPicture, scale: float, high_px: float) -> Iterator[PlanLine]:
    """Give the lines that may be named: those that stand out, then every so many."""
    named = [line for line in picture.lines if line.label]
    for state in STANDS_OUT:
        yield from (line for line in named if line.state is state)
    for is_today in (True, False):
        for lines in _kinds(named):
            apart = _apart(lines) * scale
            need = 1.3 * high_px
            step = next((one for one in ROUND_STEPS if one * apart >= need), ROUND_STEPS[-1])
            # With a step the round numbers are named: S05, S10 and so on.
            for line in lines[0 if step == 1 else step - 1 :: step]:
                if (line.state is LineState.TODAY) == is_today and line.state not in STANDS_OUT:
                    yield line


def _kinds(named: list[PlanLine]) -> list[list[PlanLine]]:
    """Return the lines of each kind: those whose names begin alike."""
    kinds: dict[str, list[PlanLine]] = {}
    for line in named:
        kinds.setdefault(line.label[:1], []).append(line)
    return list(kinds.values())


def _apart(lines: list[PlanLine]) -> float:
    """Return how far the first two lines lie apart, square to them."""
    if len(lines) < 2:
        return 1e9
    (ax, ay), (bx, by) = lines[0].points[0], lines[0].points[-1]
    x, y = lines[1].points[0]
    length = math.hypot(bx - ax, by - ay)
    return abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length if length else 1e9


def _seen_part(line: PlanLine, window: Window, view: Box, middle: Point) -> list[Point] | None:
    """Return the part of a line's first piece that is seen, in pixels."""
    start, end = (window.place(point, middle) for point in line.points[:2])
    begins, stops = 0.0, 1.0
    for axis in (0, 1):
        move = end[axis] - start[axis]
        for edge, sign in ((view[axis], -1), (view[axis + 2], 1)):
            room = sign * (edge - start[axis])
            if move == 0:
                if room < 0:
                    return None
                continue
            at = room / (sign * move)
            if sign * move > 0:
                stops = min(stops, at)
            else:
                begins = max(begins, at)
    if begins >= stops:
        return None
    return [
        (start[0] + (end[0] - start[0]) * at, start[1] + (end[1] - start[1]) * at)
        for at in (begins, stops)
    ]


def _places(seen: list[Point], wide: float, high: float) -> Iterator[Point]:
    """Give where a name may stand: on the line, near its first end, near its last, between."""
    (ax, ay), (bx, by) = seen
    length = math.dist(*seen)
    ux, uy = (bx - ax) / length, (by - ay) / length
    inset = abs(ux) * wide * 0.65 + abs(uy) * high * 0.8
    for along in (inset, length - inset, length / 2):
        yield ax + ux * along, ay + uy * along


def _around(place: Point, wide: float, high: float) -> Box:
    return place[0] - wide / 2, place[1] - high / 2, place[0] + wide / 2, place[1] + high / 2


def _is_inside(box: Box, view: Box) -> bool:
    return box[0] >= view[0] and box[1] >= view[1] and box[2] <= view[2] and box[3] <= view[3]


def _meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
