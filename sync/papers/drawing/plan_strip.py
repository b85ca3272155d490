"""Plan of a surface as primitives: work done, work done today, work still to do."""

from __future__ import annotations

from dataclasses import dataclass

from models.units.spec import FOOT_NM, METRE_NM
from sync.papers.drawing.label_room import Room
from sync.papers.drawing.plan_lines import LineProgress, draw_slits
from sync.papers.drawing.primitives import (
    Anchor,
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
    text_width_mm,
)

NmPoint = tuple[int, int]

GAP_MM = 1.0
TURN_GAIN = 1.3
"""A plan is laid on its side where that makes it larger by this much."""
_BAR_SHARE = 0.3
_ROUND = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000)


@dataclass(frozen=True, slots=True)
class PlanLine:
    """A line of the plan; ``label`` is printed beside it, if anything."""

    start_nm: NmPoint
    end_nm: NmPoint
    standing: LineProgress
    label: str = ""
    is_out: bool = False


@dataclass(frozen=True, slots=True)
class PlanView:
    """Contents of a plan, in plan coordinates; ``is_us`` chooses the scale bar's unit."""

    name: str
    outline_nm: tuple[NmPoint, ...]
    lines: tuple[PlanLine, ...]
    collectors_nm: tuple[tuple[NmPoint, ...], ...] = ()
    is_us: bool = True

    def points(self) -> list[NmPoint]:
        """Every point that must be in the picture."""
        ends = [point for line in self.lines for point in (line.start_nm, line.end_nm)]
        return [*self.outline_nm, *ends, *(p for path in self.collectors_nm for p in path)]


@dataclass(frozen=True, slots=True)
class _Fit:
    """How plan coordinates become millimetres on the drawing."""

    mm_per_nm: float
    least: NmPoint
    corner: Point
    is_turned: bool

    def at(self, point: NmPoint) -> Point:
        """Return the place of a plan point; a turned plan has north to the left."""
        x, y = _turned(point) if self.is_turned else point
        return (
            self.corner[0] + (x - self.least[0]) * self.mm_per_nm,
            self.corner[1] + (y - self.least[1]) * self.mm_per_nm,
        )


def _turned(point: NmPoint) -> NmPoint:
    return -point[1], point[0]


def draw_plan(view: PlanView, width_mm: float, height_mm: float, cap_mm: float = 1.8) -> Drawing:
    """Draw a plan into a box: the same list for paper and glass."""
    foot_mm = 2.2 * cap_mm + GAP_MM
    if not view.points():
        words = Text((width_mm / 2, height_mm / 2), "no plan yet", cap_mm, Anchor.MIDDLE)
        return Drawing(width_mm, height_mm, (words,))
    side_mm = 5 * cap_mm
    fit = _fit(view, width_mm - side_mm, height_mm - foot_mm - cap_mm, foot_mm)
    items: list[Primitive] = []
    if len(view.outline_nm) > 2:
        items.append(Polyline(tuple(map(fit.at, view.outline_nm)), 0.35, is_closed=True))
    slits = draw_slits(
        [(line.standing, fit.at(line.start_nm), fit.at(line.end_nm)) for line in view.lines]
    )
    items += slits.items
    items += [
        Polyline(tuple(map(fit.at, path)), 0.9, Tone.RULE)
        for path in view.collectors_nm
        if len(path) > 1
    ]
    items += _out_marks(view, fit, cap_mm)
    items += _labels(view, fit, cap_mm, (width_mm, height_mm))
    items += _north(fit.is_turned, width_mm, height_mm, cap_mm)
    items += _scale_bar(fit.mm_per_nm, width_mm, cap_mm, view.is_us)
    if slits.every > 1:
        note = f"1 in {slits.every} planned lines drawn"
        items.append(Text((width_mm - GAP_MM, 0.6 * cap_mm), note, cap_mm, Anchor.RIGHT))
    return Drawing(width_mm, height_mm, tuple(items))


def _fit(view: PlanView, width_mm: float, height_mm: float, foot_mm: float) -> _Fit:
    """Choose the larger of upright and lying, and centre it."""
    upright = _scale(view.points(), width_mm, height_mm)
    lying = _scale([_turned(point) for point in view.points()], width_mm, height_mm)
    is_turned = lying[0] > TURN_GAIN * upright[0]
    scale, least, size = lying if is_turned else upright
    corner = (
        (width_mm - size[0] * scale) / 2,
        foot_mm + (height_mm - size[1] * scale) / 2,
    )
    return _Fit(scale, least, corner, is_turned)


def _scale(
    points: list[NmPoint], width_mm: float, height_mm: float
) -> tuple[float, NmPoint, NmPoint]:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    room = (width_mm - 2 * GAP_MM, height_mm - 2 * GAP_MM)
    scales = [mm / nm for mm, nm in zip(room, (wide, high), strict=True) if nm]
    return min(scales, default=1e-9), (min(xs), min(ys)), (wide, high)


def _out_marks(view: PlanView, fit: _Fit, cap_mm: float) -> list[Primitive]:
    return [
        Mark(
            fit.at(
                ((line.start_nm[0] + line.end_nm[0]) // 2, (line.start_nm[1] + line.end_nm[1]) // 2)
            ),
            Shape.CROSSED_SQUARE,
            1.3 * cap_mm,
            Tone.OUT,
        )
        for line in view.lines
        if line.is_out
    ]


def _labels(
    view: PlanView, fit: _Fit, cap_mm: float, size_mm: tuple[float, float]
) -> list[Primitive]:
    """Name lines at their end, where there is room; a name that would overlap is left out."""
    room = Room()
    found: list[Primitive] = []
    for line in view.lines:
        if not line.label:
            continue
        start, end = fit.at(line.start_nm), fit.at(line.end_nm)
        width = text_width_mm(line.label, cap_mm)
        for left, bottom in _places(max(start, end), min(start, end), width, cap_mm):
            box = (left, bottom - 0.3 * cap_mm, left + width, bottom + 1.3 * cap_mm)
            inside = box[0] >= 0 and box[2] <= size_mm[0] and box[3] <= size_mm[1]
            if inside and room.is_free(box):
                room.taken.append(box)
                found.append(Text((left, bottom), line.label, cap_mm, has_halo=True))
                break
    return found


def _places(head: Point, tail: Point, width: float, cap_mm: float) -> list[Point]:
    """Where a line's name may begin: beyond its right end, before its left end, or over its top."""
    if abs(head[0] - tail[0]) < abs(head[1] - tail[1]):
        top = max(head, tail, key=lambda point: point[1])
        return [(top[0] - width / 2, top[1] + 0.5 * cap_mm)]
    middle = cap_mm / 2
    return [(head[0] + 0.6, head[1] - middle), (tail[0] - width - 0.6, tail[1] - middle)]


def _north(is_turned: bool, width_mm: float, height_mm: float, cap_mm: float) -> list[Primitive]:
    """Arrow to plan north: up, or to the left where the plan lies on its side."""
    size = 3 * cap_mm
    x, y = width_mm - 1.5 * cap_mm, height_mm - 1.5 * cap_mm
    if is_turned:
        tip, tail = (x - size, y), (x, y)
        barbs = ((tip[0] + cap_mm, y + 0.5 * cap_mm), (tip[0] + cap_mm, y - 0.5 * cap_mm))
        words = (tip[0] + size / 2, y - 2.2 * cap_mm)
    else:
        tip, tail = (x, y), (x, y - size)
        barbs = ((x - 0.5 * cap_mm, y - cap_mm), (x + 0.5 * cap_mm, y - cap_mm))
        words = (x, y - size - 1.4 * cap_mm)
    return [
        Line(tail, tip, 0.35),
        Polygon((tip, *barbs), Tone.INK),
        Text(words, "N", cap_mm, Anchor.MIDDLE, is_bold=True),
    ]


def _scale_bar(mm_per_nm: float, width_mm: float, cap_mm: float, is_us: bool) -> list[Primitive]:
    """Bar of a round length: it stays true when the sheet is copied smaller."""
    unit_nm, name = (FOOT_NM, "ft") if is_us else (METRE_NM, "m")
    room = width_mm * _BAR_SHARE
    fitting = [count for count in _ROUND if count * unit_nm * mm_per_nm <= room]
    count = fitting[-1] if fitting else _ROUND[0]
    long_mm = count * unit_nm * mm_per_nm
    y, half = 0.6 * cap_mm, long_mm / 2
    x = GAP_MM
    return [
        Polygon(((x, y), (x + half, y), (x + half, y + 0.8), (x, y + 0.8)), Tone.INK),
        Polyline(
            ((x, y), (x + long_mm, y), (x + long_mm, y + 0.8), (x, y + 0.8)), 0.25, is_closed=True
        ),
        Text((x + long_mm + 1.0, y), f"{count} {name}", cap_mm),
    ]
