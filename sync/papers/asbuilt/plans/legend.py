"""Legend, north arrow and scale bar of a plan as primitives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.units.spec import FOOT_NM, METRE_NM
from sync.papers.asbuilt.features.feature_types import LineStatus
from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.plans.marks import utility_ring
from sync.papers.asbuilt.plans.strokes import STYLES, Stroke, strokes_of
from sync.papers.asbuilt.plans.tiles import PlanTiling
from sync.papers.drawing.marking_code import UtilityKind, utility_kind
from sync.papers.drawing.primitives import (
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Shape,
    Text,
    Tone,
    translate,
)

CAP_MM = 1.8
ROW_MM = 4.0
SAMPLE_MM = 11.0
_ROUND = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000)

Row = tuple[tuple[Primitive, ...], str]


def draw_legend(plots: Iterable[Plot], width_mm: float) -> Drawing:
    """Draw the legend of a plan: a row for each kind of line and mark that is on it."""
    return _set(list(_rows(list(plots))), width_mm, 1)


def draw_profile_legend(width_mm: float, columns: int) -> Drawing:
    """Draw the legend of a profile sheet, in one column or several."""
    return _set(list(_profile_rows()), width_mm, columns)


def _set(rows: list[Row], width_mm: float, columns: int) -> Drawing:
    each = -(-len(rows) // columns)
    high = each * ROW_MM
    items: list[Primitive] = []
    for number, (samples, words) in enumerate(rows):
        x = number // each * width_mm / columns
        y = high - (number % each + 0.5) * ROW_MM
        items += [translate(sample, x, y) for sample in samples]
        items.append(Text((x + SAMPLE_MM + 2.0, y - CAP_MM / 2), words, CAP_MM))
    return Drawing(width_mm, high, tuple(items))


def _profile_rows() -> Iterator[Row]:
    ends, middle = ((0.0, 0.0), (SAMPLE_MM, 0.0)), (SAMPLE_MM / 2, 0.0)
    yield (Line(*ends, 0.5), Mark(middle, Shape.DISC, 1.3)), "invert as shot"
    yield (Line(*ends, 0.25),), "top of the pipe's bore"
    yield (Line(*ends, 0.3, Tone.PLANNED, Dash.DASHED),), "design invert"
    yield (Line(*ends, 0.6, Tone.RULE),), "finished ground"
    box = ((0.0, -1.2), (SAMPLE_MM, -1.2), (SAMPLE_MM, 1.2), (0.0, 1.2))
    yield (Polygon(box, Tone.BAND),), "belly; below: tolerance"
    yield (Mark(middle, Shape.CROSSED_SQUARE, 1.7, Tone.OUT),), "OUT of tolerance"
    yield (Line(*ends, 1.1),), "falls the wrong way"


def _rows(plots: list[Plot]) -> Iterator[Row]:
    met = {stroke for plot in plots for stroke, _ in strokes_of(plot)}
    for stroke in Stroke:
        if stroke in met:
            style = STYLES[stroke]
            line = Line((0.0, 0.0), (SAMPLE_MM, 0.0), style.weight_mm, style.tone, style.dash)
            yield (line,), stroke.value
    middle = (SAMPLE_MM / 2, 0.0)
    if any(plot.collectors for plot in plots):
        yield (Mark(middle, Shape.DISC, 2.8),), "outlet of a collector"
        yield (Mark(middle, Shape.RING, 2.8, is_filled=False),), "head of a collector"
    if any(plot.joints for plot in plots):
        left, right = (SAMPLE_MM * 0.3, 0.0), (SAMPLE_MM * 0.7, 0.0)
        marks = (Mark(left, Shape.SQUARE, 1.2), Mark(right, Shape.SQUARE, 1.2, is_filled=False))
        yield marks, "joint: full, made; open, not written down"
    if any(plot.marks for plot in plots):
        yield (Mark(middle, Shape.TRIANGLE, 2.6),), "permanent point to measure from"
    yield from _utility_rows(plots, middle)
    if any(line.status is LineStatus.OUT for plot in plots for line in plot.lines):
        mark = Mark(middle, Shape.CROSSED_SQUARE, 2.0, is_filled=False)
        yield (mark,), "line with a reading OUT, not accepted"


def _utility_rows(plots: list[Plot], middle: Point) -> Iterator[Row]:
    """What was met in the ground, then each kind with the letter and colour of its marks."""
    met = [one.what for plot in plots for _, one in plot.utilities]
    if met:
        yield (Mark(middle, Shape.CROSS, 2.4),), "met in the ground, see table"
    placed = [one.by_position for plot in plots for _, one in plot.utilities]
    placed += [one.by_position for plot in plots for one in plot.outlets]
    if any(placed):
        ring = Mark(middle, Shape.RING, 3.4, is_filled=False)
        yield (ring,), "by position: within the broken ring"
    for kind in UtilityKind:
        named = next((what for what in met if utility_kind(what) is kind), None)
        if named is not None:
            told = kind.value
            marks = (*utility_ring(named, middle), Mark(middle, Shape.CROSS, 2.4))
            yield marks, f"{told.letter}: {told.said} (marked {told.colour})"


def draw_north(is_turned: bool, is_tied: bool) -> Drawing:
    """Draw an arrow to north: up, or to the left where the plan lies on its side."""
    words = "true north" if is_tied else "plan north"
    if is_turned:
        shaft = Line((14.0, 9.0), (2.0, 9.0), 0.5)
        head = Polygon(((1.0, 9.0), (5.0, 10.6), (5.0, 7.4)), Tone.INK)
        letter = Text((16.0, 8.0), "N", 2.6, Anchor.LEFT, is_bold=True)
    else:
        shaft = Line((9.0, 4.0), (9.0, 16.0), 0.5)
        head = Polygon(((9.0, 17.0), (7.4, 13.0), (10.6, 13.0)), Tone.INK)
        letter = Text((12.0, 13.0), "N", 2.6, Anchor.LEFT, is_bold=True)
    return Drawing(20.0, 18.0, (shaft, head, letter, Text((0.0, 0.0), words, CAP_MM)))


def draw_bar(sheeting: PlanTiling, room_mm: float, is_us: bool) -> Drawing:
    """Draw a scale bar of a round length in four parts: true on a copy of any size."""
    unit_nm, name = (FOOT_NM, "ft") if is_us else (METRE_NM, "m")
    per_unit = unit_nm * sheeting.scale.mm_per_nm
    room = room_mm - 9.0
    count = next((one for one in reversed(_ROUND) if one * per_unit <= room), _ROUND[0])
    long = count * per_unit
    items: list[Primitive] = []
    for part in range(4):
        left, right = long * part / 4, long * (part + 1) / 4
        y = 4.0
        box = ((left, y), (right, y), (right, y + 1.4), (left, y + 1.4))
        items.append(Polyline(box, 0.25, is_closed=True))
        if part % 2 == 0:
            items.append(Polygon(box, Tone.INK))
    for share in (0, 2, 4):
        words = f"{count * share / 4:g}" + (f" {name}" if share == 4 else "")
        anchor = Anchor.LEFT if share == 0 else Anchor.MIDDLE
        items.append(Text((long * share / 4, 0.8), words, CAP_MM, anchor))
    return Drawing(room_mm, 6.0, tuple(items))
