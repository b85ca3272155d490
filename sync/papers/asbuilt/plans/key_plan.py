"""Small plans: of the whole job by sheets, and of one plot with the sheets it is cut over."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.asbuilt.plans.plan_sets import PlanSet
from sync.papers.asbuilt.plans.strokes import Stroke, strokes_of
from sync.papers.asbuilt.plans.tiles import PlanTiling, Tile
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Text,
    Tone,
    text_width_mm,
    translate,
)

_SHOWN = {Stroke.EDGE: 0.35, Stroke.COLLECTOR: 0.7, Stroke.COLLECTOR_LEFT: 0.7}


def draw_key(
    plot: Plot,
    sheeting: PlanTiling,
    numbers: list[str],
    size_mm: tuple[float, float],
    shown: int | None = None,
) -> Drawing:
    """Draw edges and collectors of a plot, each sheet's outline with its number."""
    corners = [corner for tile in sheeting.tiles for corner in _corners(tile, sheeting)]
    least = (min(x for x, _ in corners), min(y for _, y in corners))
    most = (max(x for x, _ in corners), max(y for _, y in corners))
    sides = (most[0] - least[0], most[1] - least[1])
    per_nm = min((room - 1.0) / side for room, side in zip(size_mm, sides, strict=True))
    high = sides[1] * per_nm + 1.0

    def at(point: Point) -> Point:
        return (point[0] - least[0]) * per_nm + 0.5, (point[1] - least[1]) * per_nm + 0.5

    items: list[Primitive] = []
    if shown is not None:
        items.append(Polygon(tuple(map(at, _corners(sheeting.tiles[shown], sheeting)))))
    items += _outlined(plot, lambda point: at(sheeting.to_paper((int(point[0]), int(point[1])))))
    for tile, number in zip(sheeting.tiles, numbers, strict=True):
        box = tuple(map(at, _corners(tile, sheeting)))
        items.append(Polyline(box, 0.25, Tone.RULE, is_closed=True))
        middle = at(tile.middle)
        words = Text((middle[0], middle[1] - 1.2), number, 2.4, Anchor.MIDDLE, is_bold=True)
        items.append(words)
    return Drawing(size_mm[0], high, tuple(items))


def _corners(tile: Tile, sheeting: PlanTiling) -> list[Point]:
    half = [side / 2 / sheeting.scale.mm_per_nm for side in sheeting.window_mm]
    x, y = tile.middle
    return [
        (x - half[0], y - half[1]),
        (x + half[0], y - half[1]),
        (x + half[0], y + half[1]),
        (x - half[0], y + half[1]),
    ]


def draw_job_key(sets: Sequence[PlanSet], size_mm: tuple[float, float]) -> Drawing:
    """Draw all plots where they lie toward each other, north up, with their sheets' numbers."""
    points = [
        (place.x_nm, place.y_nm)
        for one in sets
        for stroke, course in strokes_of(one.plot)
        for place in course
        if stroke is not Stroke.KEEP_OUT
    ]
    least = (min(x for x, _ in points), min(y for _, y in points))
    sides = (
        max(x for x, _ in points) - least[0] or 1,
        max(y for _, y in points) - least[1] or 1,
    )
    per_nm = min((room - 12.0) / side for room, side in zip(size_mm, sides, strict=True))
    high = sides[1] * per_nm + 12.0
    left = (size_mm[0] - sides[0] * per_nm) / 2

    def at(point: Point) -> Point:
        return left + (point[0] - least[0]) * per_nm, 6.0 + (point[1] - least[1]) * per_nm

    items: list[Primitive] = []
    for one in sets:
        items += _outlined(one.plot, at)
    items += _sheet_names(sets, at, (size_mm[0], high))
    items += _north((size_mm[0] - 4.0, high))
    return Drawing(size_mm[0], high, tuple(items))


def _sheet_names(
    sets: Sequence[PlanSet], at: Callable[[Point], Point], size_mm: tuple[float, float]
) -> Iterator[Primitive]:
    """Numbers of its sheets over the middle of each plot, where they cover no other's."""
    half = (size_mm[0] / 2, size_mm[1] / 2)
    spots = DiscGrid(half)
    for one in sets:
        box = one.plot.work_box()
        assert box is not None
        x, y = at(((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))
        words = _numbers(one)
        start = (x - half[0] - text_width_mm(words, 2.4, True) / 2, y - half[1])
        yield from (
            translate(item, *half) for item in spots.place_label(words, start, 2.4, bold=True)
        )


def _north(tip: Point) -> list[Primitive]:
    x, top = tip
    return [
        Line((x, top - 10.0), (x, top - 2.0), 0.4),
        Polygon(((x, top), (x - 1.0, top - 3.0), (x + 1.0, top - 3.0)), Tone.INK),
        Text((x - 2.0, top - 9.0), "N", 2.2, Anchor.RIGHT, is_bold=True),
    ]


def _numbers(one: PlanSet) -> str:
    first, last = one.first, one.first + len(one.sheeting.tiles) - 1
    return f"sheet {first}" if first == last else f"sheets {first} to {last}"


def _outlined(plot: Plot, at: Callable[[Point], Point]) -> Iterator[Primitive]:
    """Edges and collectors of a plot; the box round its lines where it has no edge."""
    strokes = [one for one in strokes_of(plot) if one[0] in _SHOWN and len(one[1]) > 1]
    for stroke, course in strokes:
        yield Polyline(tuple(at((p.x_nm, p.y_nm)) for p in course), _SHOWN[stroke])
    box = plot.work_box()
    if box is not None and not any(stroke is Stroke.EDGE for stroke, _ in strokes):
        corners = ((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3]))
        yield Polyline(tuple(map(at, corners)), 0.25, dash=Dash.DASHED, is_closed=True)
