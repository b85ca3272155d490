"""A sheet of a plan as primitives: lines with their names, collectors, points, match lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from models.units.job_units import Figures
from sync.papers.asbuilt.features.feature_types import Place
from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.features.short_names import short
from sync.papers.asbuilt.plans.collector import draw_collector
from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.asbuilt.plans.line_names import LineLabel, LineLabels, name_lines
from sync.papers.asbuilt.plans.marks import CAP_MM, draw_marks
from sync.papers.asbuilt.plans.strokes import draw_strokes
from sync.papers.asbuilt.plans.tiles import PlanTiling, Tile
from sync.papers.drawing.clipping import clip_segment
from sync.papers.drawing.primitives import (
    Dash,
    Drawing,
    Line,
    Point,
    Polyline,
    Primitive,
    text_width_mm,
    translate,
)


@dataclass(frozen=True, slots=True)
class PlanDrawing:
    """A drawn sheet, and which of its lines have their names."""

    drawing: Drawing
    names: LineLabels


def draw_plan_sheet(
    plot: Plot, sheeting: PlanTiling, tile: Tile, figures: Figures, joins: dict[str, str]
) -> PlanDrawing:
    """Draw one sheet of a plan; ``joins`` says which sheet goes on at each cut side."""
    width, height = sheeting.window_mm
    half = (width / 2, height / 2)
    spots = DiscGrid(half)
    items: list[Primitive] = list(draw_strokes(plot, sheeting, tile))
    items += _match_lines(half, joins, spots)
    items += draw_marks(plot, lambda place: _on(sheeting, tile, place), spots)
    for run in plot.collectors:
        points = [_on(sheeting, tile, place) for place in run.course]
        marks = [
            (_on(sheeting, tile, mark.at), figures.station(mark.station_nm)) for mark in run.marks
        ]
        items += draw_collector(run, points, marks, _middle(plot, sheeting, tile), spots)
    names = name_lines(_named(plot, sheeting, tile, half), spots, CAP_MM)
    items += names.items
    frame = [(-half[0], -half[1]), (half[0], -half[1]), half, (-half[0], half[1])]
    items.append(Polyline(tuple(frame), 0.35, is_closed=True))
    placed = tuple(translate(item, *half) for item in items)
    return PlanDrawing(Drawing(width, height, placed), names)


def _named(plot: Plot, sheeting: PlanTiling, tile: Tile, half: Point) -> Iterator[LineLabel]:
    for line in plot.lines:
        if line.start is None or line.end is None:
            continue
        start, end = (_on(sheeting, tile, place) for place in (line.start, line.end))
        seen = clip_segment(start, end, half)
        if seen is not None and seen[0] != seen[1]:
            group = f"{line.surface_id}/{line.use}"
            rank = int(line.use != "piped_slit")  # fewer, and what a spade must not meet
            yield LineLabel(
                short(line.line_id, LONGEST_LINE),
                group,
                *seen,
                rank,
                seen[0] != start,
                seen[1] != end,
            )


def _on(sheeting: PlanTiling, tile: Tile, place: Place) -> Point:
    return sheeting.to_window(tile, (place.x_nm, place.y_nm))


def _middle(plot: Plot, sheeting: PlanTiling, tile: Tile) -> Point:
    """Middle of the surfaces of a plot: what belongs to a collector is written away from it."""
    places = [place for surface in plot.surfaces for place in surface.outline]
    places = places or [line.start for line in plot.lines if line.start is not None]
    points = [_on(sheeting, tile, place) for place in places] or [(0.0, 0.0)]
    return (
        sum(x for x, _ in points) / len(points),
        sum(y for _, y in points) / len(points),
    )


LONGEST_LINE = 16
"""Letters of a line's name on a plan."""

_SIDES: dict[str, tuple[Point, Point]] = {
    "left": ((-1.0, -1.0), (-1.0, 1.0)),
    "right": ((1.0, -1.0), (1.0, 1.0)),
    "down": ((-1.0, -1.0), (1.0, -1.0)),
    "up": ((-1.0, 1.0), (1.0, 1.0)),
}


def _match_lines(half: Point, joins: dict[str, str], spots: DiscGrid) -> Iterator[Primitive]:
    """A heavy broken line at each side where another sheet goes on, with that sheet's name."""
    for side, sheet in joins.items():
        (ax, ay), (bx, by) = _SIDES[side]
        start, end = (ax * half[0], ay * half[1]), (bx * half[0], by * half[1])
        yield Line(start, end, 0.9, dash=Dash.DASHED)
        text = f"match line, goes on on {sheet}"
        long = text_width_mm(text, CAP_MM, True)
        if side in {"left", "right"}:
            inward = 1.9 if side == "left" else -1.9
            yield from spots.place_label(
                text, (start[0] + inward, -long / 2), CAP_MM, 90.0, bold=True
            )
        else:
            inward = 1.9 if side == "down" else -1.9
            yield from spots.place_label(text, (-long / 2, start[1] + inward), CAP_MM, bold=True)
