"""Marks on a plan: permanent points, utilities met, joints, lines that are out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import cos, inf, pi, sin

from sync.papers.asbuilt.features.feature_types import LineStatus, OutletAt, Place, UtilityFeature
from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.features.short_names import short
from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.drawing.clipping import is_inside
from sync.papers.drawing.marking_code import utility_kind, utility_name
from sync.papers.drawing.primitives import (
    Dash,
    Line,
    Mark,
    Point,
    Polyline,
    Primitive,
    Shape,
    Tone,
    text_width_mm,
)

CAP_MM = 1.8
LEADER_MM = 0.2
RING_MM = 4.4
RING_CORNERS = 36

On = Callable[[Place], Point]


def draw_marks(plot: Plot, on: On, spots: DiscGrid) -> Iterator[Primitive]:
    """Every mark of a plot that falls on the sheet, those that guide a spade first."""
    yield from _named_marks(plot, on, spots)
    for joint in plot.joints:
        if is_inside(on(joint.at), spots.half):
            yield Mark(on(joint.at), Shape.SQUARE, 1.0, is_filled=joint.is_made)
    for line in plot.lines:
        if line.status is LineStatus.OUT and line.start and line.end:
            start, end = on(line.start), on(line.end)
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            if is_inside(middle, spots.half):
                spots.block(middle, 1.2)
                yield Mark(middle, Shape.CROSSED_SQUARE, 2.0, is_filled=False)


def _named_marks(plot: Plot, on: On, spots: DiscGrid) -> Iterator[Primitive]:
    for mark in plot.marks:
        if mark.at and is_inside(on(mark.at), spots.half):
            yield from draw_mark(on(mark.at), Shape.TRIANGLE, 2.6, mark.point_id, spots)
    for number, met in plot.utilities:
        if met.at and is_inside(on(met.at), spots.half):
            yield from utility_ring(met.what, on(met.at))
            words = f"{utility_name(number, met.what)} {met.what}"
            yield from _draw_placed(plot, on, spots, met, Shape.CROSS, words)
    for outlet in plot.outlets:
        if outlet.at and is_inside(on(outlet.at), spots.half):
            words = f"{outlet.outlet_id} outlet"
            yield from _draw_placed(plot, on, spots, outlet, Shape.SQUARE, words)


def _draw_placed(
    plot: Plot, on: On, spots: DiscGrid, thing: UtilityFeature | OutletAt, shape: Shape, words: str
) -> Iterator[Primitive]:
    """A mark with its name; one by position in a broken ring as wide as it may be off."""
    if thing.at is None:
        return
    if thing.by_position is not None:
        words = f"{words}, by position"
        yield from accuracy_ring(on, spots.half, thing.at, thing.by_position.good_to_nm or 0)
    yield from draw_mark(on(thing.at), shape, 2.4, words, spots)


def accuracy_ring(on: On, half: Point, at: Place, good_to_nm: int) -> Iterator[Primitive]:
    """The circle within which a position is held to lie, broken: nothing there was measured.

    What of it runs off the sheet is left out.
    """
    corners = [
        on(Place(at.x_nm + round(good_to_nm * cos(turn)), at.y_nm + round(good_to_nm * sin(turn))))
        for turn in (2 * pi * step / RING_CORNERS for step in range(RING_CORNERS + 1))
    ]
    piece: list[Point] = []
    for corner in [*corners, (inf, inf)]:
        if is_inside(corner, half):
            piece.append(corner)
            continue
        if len(piece) > 1 and good_to_nm:
            yield Polyline(tuple(piece), 0.2, dash=Dash.DASHED)
        piece = []


def utility_ring(what: str, at: Point) -> Iterator[Primitive]:
    """A ring in the colour of the marking code; none for what the code doesn't name."""
    kind = utility_kind(what)
    if kind is not None:
        yield Mark(at, Shape.DISC, RING_MM, kind.value.tone)
        yield Mark(at, Shape.DISC, RING_MM - 1.4, Tone.PAPER)


def draw_mark(
    at: Point,
    shape: Shape,
    size_mm: float,
    words: str,
    spots: DiscGrid,
    out: Point = (0.0, 0.0),
) -> Iterator[Primitive]:
    """A mark with its name in bold beside it, where there is room; on the side of ``out`` first."""
    words = short(words)
    spots.block(at, size_mm / 2)
    yield Mark(at, shape, size_mm, is_filled=shape is not Shape.RING)
    width = text_width_mm(words, CAP_MM, True)
    for right, up in _tries(width, size_mm / 2 + 1.6, out):
        ends_here = right + width < 0
        begin = (at[0] + right, at[1] + up)
        put = spots.place_label(words, begin, CAP_MM, bold=True, is_anchored_right=ends_here)
        if put:
            if abs(up) > size_mm / 2 + 2 * CAP_MM:  # too far off to be taken for its name
                side = right + width if ends_here else max(right, 0.0)
                yield Line(at, (at[0] + side, at[1] + up), LEADER_MM)
            yield from put
            return


def _tries(width: float, away: float, out: Point) -> list[Point]:
    """Where a name may begin: beside its mark, over and under, at the corners, then farther off."""
    rows = (0.0, *(sign * far for far in (away + 0.4, 2.5 * away, 4 * away) for sign in (1, -1)))
    tries = [(left, up) for up in rows for left in (away, -away - width)]
    tries += [(-width / 2, up) for up in rows[1:]]
    tries.sort(key=lambda place: abs(place[1]))
    return sorted(tries, key=lambda place: _inward((place[0] + width / 2, place[1]), out))


def _inward(place: Point, out: Point) -> bool:
    """Whether a place lies on the side where the lines are."""
    return place[0] * out[0] + place[1] * out[1] < -0.1
