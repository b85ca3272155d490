"""The plan as figures: which lines there are, where they fall in a box, which was tapped."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

Point = tuple[float, float]


class LineState(StrEnum):
    """How a line on the plan is drawn."""

    PLANNED = "planned"  # thin and broken
    DONE = "done"  # thin
    TODAY = "today"  # heavy
    OUT = "out"  # heavy, with a crossed square in its middle
    SELECTED = "selected"  # heaviest
    COLLECTOR = "collector"  # the pipe the lines drain to: two edges, white between


@dataclass(frozen=True, slots=True)
class PlanLine:
    """Line of the plan in world units, with a key to pick it by."""

    key: str
    points: tuple[Point, ...]
    state: LineState = LineState.PLANNED
    label: str = ""


@dataclass(frozen=True)  # without slots: its bounds are kept once they are known
class PlanPicture:
    """A whole plan: outline and keep-outs as closed rings, and its lines."""

    outline: tuple[Point, ...] = ()
    keep_outs: tuple[tuple[Point, ...], ...] = ()
    lines: tuple[PlanLine, ...] = ()
    spacing: float = 0.0  # between neighbouring lines; keeps heavy lines apart when small

    def bounds(self) -> tuple[float, float, float, float]:
        """Return the least x and y and the greatest x and y of all points."""
        return self._bounds

    @cached_property
    def boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """Least and greatest x and y of every line, in their order."""
        return tuple(_box(line.points) for line in self.lines)

    @cached_property
    def _bounds(self) -> tuple[float, float, float, float]:
        points = [*self.outline, *(p for line in self.lines for p in line.points)]
        return _box(points) if points else (0.0, 0.0, 1.0, 1.0)


@dataclass(frozen=True, slots=True)
class Window:
    """The part of the world that is seen: its centre, and pixels a world unit."""

    centre: Point
    scale: float

    @classmethod
    def around(cls, picture: PlanPicture, width: float, height: float) -> Window:
        """Return the window that shows the whole plan in a box of pixels."""
        left, low, right, top = picture.bounds()
        scale = min(width / max(right - left, 1e-9), height / max(top - low, 1e-9))
        return cls(((left + right) / 2, (low + top) / 2), scale)

    def zoom(self, times: float) -> Window:
        """Return the window enlarged about its centre."""
        return Window(self.centre, self.scale * times)

    def zoom_about(self, times: float, place: Point, middle: Point) -> Window:
        """Return the window enlarged so that what lies under a place stays under it."""
        at = self.world(place, middle)
        scale = self.scale * times
        return Window(
            (at[0] - (place[0] - middle[0]) / scale, at[1] - (place[1] - middle[1]) / scale), scale
        )

    def keep_on_plan(self, bounds: tuple[float, float, float, float]) -> Window:
        """Return the window with its centre on the plan: the paper can't be lost."""
        left, low, right, top = bounds
        x, y = self.centre
        return Window((min(max(x, left), right), min(max(y, low), top)), self.scale)

    def pan(self, dx_px: float, dy_px: float) -> Window:
        """Return the window after the paper was pulled by so many pixels."""
        x, y = self.centre
        return Window((x - dx_px / self.scale, y - dy_px / self.scale), self.scale)

    def place(self, point: Point, middle: Point) -> Point:
        """Return where a world point falls, ``middle`` being the box's own."""
        return (
            middle[0] + (point[0] - self.centre[0]) * self.scale,
            middle[1] + (point[1] - self.centre[1]) * self.scale,
        )

    def world(self, place: Point, middle: Point) -> Point:
        """Return the world point that falls on a place."""
        return (
            self.centre[0] + (place[0] - middle[0]) / self.scale,
            self.centre[1] + (place[1] - middle[1]) / self.scale,
        )


def _box(points: Sequence[Point]) -> tuple[float, float, float, float]:
    """Return the least x and y and the greatest x and y of points."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def nearest(picture: PlanPicture, at: Point, within: float) -> PlanLine | None:
    """Return the line nearest to a world point, if it is within so many world units."""
    best, least = None, within
    x, y = at
    for line, (left, low, right, top) in zip(picture.lines, picture.boxes, strict=True):
        if x < left - least or x > right + least or y < low - least or y > top + least:
            continue
        for start, end in zip(line.points, line.points[1:], strict=False):
            away = _distance(at, start, end)
            if away <= least:
                best, least = line, away
    return best


def _distance(at: Point, start: Point, end: Point) -> float:
    """Return how far a point lies from a piece of a line."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    part = ((at[0] - start[0]) * dx + (at[1] - start[1]) * dy) / square if square else 0.0
    part = min(max(part, 0.0), 1.0)
    return math.hypot(at[0] - start[0] - part * dx, at[1] - start[1] - part * dy)
