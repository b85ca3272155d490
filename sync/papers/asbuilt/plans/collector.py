"""A collector on a plan: its ends by name, round stations, an arrow with the flow."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from sync.papers.asbuilt.features.feature_types import CollectorRun
from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.asbuilt.plans.marks import CAP_MM, draw_mark
from sync.papers.drawing.clipping import clip_segment, is_inside
from sync.papers.drawing.primitives import (
    Line,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Shape,
    Text,
    text_width_mm,
)

_TICK_MM = 1.6
_ARROW_MM = 10.0
_AWAY_MM = 7.0

StationAt = tuple[Point, str]


def draw_collector(
    run: CollectorRun, points: list[Point], marks: list[StationAt], middle: Point, spots: DiscGrid
) -> Iterator[Primitive]:
    """Draw what belongs to a collector, written on the side away from the surfaces' middle."""
    if len(points) < 2:
        return
    for start, end in pairwise(points):
        _keep_clear(start, end, spots)
    for at, station in marks:
        yield from _station(at, points, station, middle, spots)
    yield from _flow(points, run.stationed_from == "outlet", middle, spots)
    yield from _ends(run, points, middle, spots)


def _ends(
    run: CollectorRun, points: list[Point], middle: Point, spots: DiscGrid
) -> Iterator[Primitive]:
    outlet, head = points[0], points[-1]
    if run.stationed_from == "head":
        outlet, head = head, outlet
    words = f"outlet of {run.collector_id}" + (f", {run.outlet}" if run.outlet else "")
    for at, shape, name in (
        (outlet, Shape.DISC, words),
        (head, Shape.RING, f"head of {run.collector_id}"),
    ):
        if is_inside(at, spots.half):
            out = _outward(at, _direction(at, points), middle)
            yield from draw_mark(at, shape, 2.8, name, spots, out)


def _keep_clear(start: Point, end: Point, spots: DiscGrid) -> None:
    seen = clip_segment(start, end, spots.half)
    if seen is None:
        return
    (ax, ay), (bx, by) = seen
    steps = max(1, int(hypot(bx - ax, by - ay) / 1.5))
    for step in range(steps + 1):
        share = step / steps
        spots.block((ax + share * (bx - ax), ay + share * (by - ay)), 0.7)


def _outward(at: Point, along: Point, middle: Point) -> Point:
    """Unit vector square to a course, away from a point."""
    across = (-along[1], along[0])
    toward = (middle[0] - at[0]) * across[0] + (middle[1] - at[1]) * across[1]
    return (-across[0], -across[1]) if toward > 0 else across


def _station(
    at: Point, points: list[Point], words: str, middle: Point, spots: DiscGrid
) -> Iterator[Primitive]:
    """A tick across the collector and its station beside it, outside if there is room."""
    if not is_inside(at, spots.half):
        return
    out = _outward(at, _direction(at, points), middle)
    yield Line(_moved(at, out, -_TICK_MM), _moved(at, out, _TICK_MM), 0.25)
    width = text_width_mm(words, CAP_MM)
    for side in (1.0, -1.0):
        place = _moved(at, out, side * (_TICK_MM + 1.5))
        upright = abs(out[0]) > abs(out[1])
        left = (0.0 if side * out[0] > 0 else -width) if upright else -width / 2
        put = spots.place_label(words, (place[0] + left, place[1]), CAP_MM)
        if put:
            yield from put
            return


def _direction(at: Point, points: list[Point]) -> Point:
    """Direction of the piece of a course that a point lies on."""
    start, end = min(pairwise(points), key=lambda piece: _detour(at, *piece))
    long = _far(start, end) or 1.0
    return (end[0] - start[0]) / long, (end[1] - start[1]) / long


def _detour(at: Point, start: Point, end: Point) -> float:
    """How much longer the way over a point is than the piece itself."""
    return _far(start, at) + _far(at, end) - _far(start, end)


def _far(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _moved(at: Point, way: Point, by: float) -> Point:
    return at[0] + way[0] * by, at[1] + way[1] * by


def _flow(
    points: list[Point], toward_first: bool, middle: Point, spots: DiscGrid
) -> Iterator[Primitive]:
    """An arrow outside the longest piece of a collector, the way water runs."""
    pieces = [clip_segment(start, end, spots.half) for start, end in pairwise(points)]
    seen = [piece for piece in pieces if piece is not None]
    if not seen:
        return
    start, end = max(seen, key=lambda piece: _far(*piece))
    if toward_first:
        start, end = end, start
    long = _far(start, end)
    if long < 2 * _ARROW_MM:
        return
    way = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    for away in (_AWAY_MM, -_AWAY_MM):
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            on = _moved(start, way, share * long)
            at = _moved(on, _outward(on, way, middle), away)
            put = _flow_word(at, way, spots)
            if put:
                yield from put
                yield from _arrow(at, way, spots)
                return


def _flow_word(at: Point, way: Point, spots: DiscGrid) -> list[Polygon | Text]:
    """The word behind an arrow, if the arrow and it have room."""
    if not is_inside(at, (spots.half[0] - _ARROW_MM, spots.half[1] - 3.0)):
        return []
    if not all(spots.is_free(_moved(at, way, mm), 1.0) for mm in (-5.0, -2.5, 0.0, 2.5, 5.0)):
        return []
    return spots.place_label("flow", _moved(at, way, -_ARROW_MM / 2 - 9.0), CAP_MM, bold=True)


def _arrow(at: Point, way: Point, spots: DiscGrid) -> Iterator[Primitive]:
    tail, tip = _moved(at, way, -_ARROW_MM / 2), _moved(at, way, _ARROW_MM / 2)
    across, back = (-way[1], way[0]), _moved(tip, way, -2.0)
    for share in (-0.5, -0.25, 0.0, 0.25, 0.5):
        spots.block(_moved(at, way, share * _ARROW_MM), 1.0)
    yield Line(tail, tip, 0.5)
    yield Polyline((_moved(back, across, 0.9), tip, _moved(back, across, -0.9)), 0.5)
