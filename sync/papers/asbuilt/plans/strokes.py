"""Lines of a plan by what they mean: weight and pattern tell them apart, never colour."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from sync.papers.asbuilt.features.feature_types import Course, LineAsCut
from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.plans.tiles import PlanTiling, Tile
from sync.papers.drawing.clipping import Run, clip_course
from sync.papers.drawing.primitives import Dash, Polyline, Tone


class Stroke(StrEnum):
    """Kind of a line on the plan, in the words of the legend."""

    SAND = "sand slit, cut"
    PIPED = "piped slit, cut"
    SAND_LEFT = "sand slit, planned and not cut"
    PIPED_LEFT = "piped slit, planned and not cut"
    COLLECTOR = "collector, laid"
    COLLECTOR_LEFT = "collector, planned and not laid"
    EDGE = "edge of the surface"
    KEEP_OUT = "keep-out"


@dataclass(frozen=True, slots=True)
class Style:
    """Weight in mm, pattern, tone; ``room`` is the share of the spacing that it may fill."""

    weight_mm: float
    dash: Dash
    tone: Tone = Tone.INK
    room: float = 1.0


STYLES: dict[Stroke, Style] = {
    Stroke.KEEP_OUT: Style(0.25, Dash.SOLID, Tone.RULE),
    Stroke.EDGE: Style(0.35, Dash.DASHED),
    Stroke.SAND_LEFT: Style(0.2, Dash.DOTTED, Tone.INK, 0.3),
    Stroke.PIPED_LEFT: Style(0.45, Dash.DOTTED, Tone.INK, 0.6),
    Stroke.SAND: Style(0.2, Dash.SOLID, Tone.INK, 0.3),
    Stroke.PIPED: Style(0.6, Dash.SOLID, Tone.INK, 0.6),
    Stroke.COLLECTOR_LEFT: Style(1.0, Dash.DASHED),
    Stroke.COLLECTOR: Style(1.2, Dash.SOLID),
}
"""The first is drawn lowest."""
THINNEST_MM = 0.12


def line_stroke(line: LineAsCut) -> Stroke:
    """Kind of stroke that a line is drawn as."""
    if line.use == "piped_slit":
        return Stroke.PIPED if line.pass_ids else Stroke.PIPED_LEFT
    return Stroke.SAND if line.pass_ids else Stroke.SAND_LEFT


def strokes_of(plot: Plot) -> Iterator[tuple[Stroke, Course]]:
    """Every line of a plot as a course on the ground."""
    yield from _edges(plot)
    for line in plot.lines:
        if line.start is not None and line.end is not None:
            yield line_stroke(line), (line.start, line.end)
    for run in plot.collectors:
        if len(run.course) > 1:
            is_laid = bool(run.pipe_nm or run.laid)
            yield Stroke.COLLECTOR if is_laid else Stroke.COLLECTOR_LEFT, run.course


def _edges(plot: Plot) -> Iterator[tuple[Stroke, Course]]:
    for surface in plot.surfaces:
        rings = [ring for one in surface.keep_outs for ring in (one.ring, *one.islands)]
        yield from ((Stroke.KEEP_OUT, (*ring, ring[0])) for ring in rings)
        if len(surface.outline) > 2:
            yield Stroke.EDGE, (*surface.outline, surface.outline[0])


def courses_on(plot: Plot, sheeting: PlanTiling, tile: Tile) -> Iterator[list[Run]]:
    """Every course of a plot as the runs of it that fall on one sheet."""
    half = (sheeting.window_mm[0] / 2, sheeting.window_mm[1] / 2)
    for _, course in strokes_of(plot):
        points = [sheeting.to_window(tile, (place.x_nm, place.y_nm)) for place in course]
        yield clip_course(points, half)


def without_empty(plot: Plot, sheeting: PlanTiling) -> PlanTiling:
    """The same plan without the sheets that nothing falls on."""
    if len(sheeting.tiles) == 1:
        return sheeting
    kept = tuple(tile for tile in sheeting.tiles if any(courses_on(plot, sheeting, tile)))
    return replace(sheeting, tiles=kept)


def draw_strokes(plot: Plot, sheeting: PlanTiling, tile: Tile) -> Iterator[Polyline]:
    """Lines of one sheet, from the middle of its window, what matters most drawn last."""
    apart_mm = plot.spacing_nm() * sheeting.scale.mm_per_nm
    found: dict[Stroke, list[Run]] = {stroke: [] for stroke in STYLES}
    kinds = [stroke for stroke, _ in strokes_of(plot)]
    for stroke, runs in zip(kinds, courses_on(plot, sheeting, tile), strict=True):
        found[stroke] += runs
    for stroke, drawn in found.items():
        style = STYLES[stroke]
        weight = style.weight_mm
        if apart_mm and style.room < 1:
            weight = max(THINNEST_MM, min(weight, style.room * apart_mm))
        for run in drawn:
            yield Polyline(run, weight, style.tone, style.dash)
