"""Draws primitives into a PDF: the same lists as the tablet's canvas draws."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from sync.papers.drawing.primitives import (
    DASH_IN_WEIGHTS,
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
)
from sync.papers.drawing.tones import PRINT_TONES
from sync.papers.pdf.pen import CAP_PER_EM, PT_MM, PdfPen
from sync.papers.pdf.recorder import record_item

_ALIGN = {Anchor.LEFT: 0.0, Anchor.MIDDLE: 0.5, Anchor.RIGHT: 1.0}
HALO_MM = 0.4
_STROKE_MM = 0.35


def draw(pen: PdfPen, drawing: Drawing, left: float, top: float) -> None:
    """Draw a drawing with its upper left corner at a place of the page."""
    base = top + drawing.height_mm
    for item in drawing:
        _draw(pen, item, lambda point: (left + point[0], base - point[1]))


def draw_mark(pen: PdfPen, mark: Mark) -> None:
    """Draw one mark whose place is given from the top left of the page."""
    _mark(pen, mark, lambda point: point)


_Place = Callable[[Point], Point]


def _draw(pen: PdfPen, item: Primitive, place: _Place) -> None:
    match item:
        case Line():
            _tell(pen, item, [place(item.start), place(item.end)], item.tone)
            _stroke(pen, item.weight_mm, item.tone, item.dash)
            pen.pdf.line(*place(item.start), *place(item.end))
        case Polyline():
            _tell(pen, item, [place(p) for p in item.points], item.tone)
            _stroke(pen, item.weight_mm, item.tone, item.dash)
            pen.pdf.polyline([place(p) for p in item.points], polygon=item.is_closed)
        case Polygon():
            _tell(pen, item, [place(p) for p in item.points], item.fill)
            pen.pdf.set_fill_color(*PRINT_TONES[item.fill])
            pen.pdf.polygon([place(p) for p in item.points], style="F")
        case Text():
            _text(pen, item, place)
        case Mark():
            _mark(pen, item, place)


def _tell(pen: PdfPen, item: Primitive, points: Sequence[Point], tone: Tone) -> None:
    """Tell who watches of a line or an area, by the box it fills."""
    across, down = zip(*points, strict=True)
    kind = f"{type(item).__name__.lower()} in {tone}"
    record_item(pen.pdf.page, kind, "", (min(across), min(down), max(across), max(down)))


def _stroke(pen: PdfPen, weight_mm: float, tone: Tone, dash: Dash) -> None:
    pen.pdf.set_draw_color(*PRINT_TONES[tone])
    pen.pdf.set_line_width(weight_mm)
    pattern = DASH_IN_WEIGHTS[dash]
    if pattern is None:
        pen.pdf.set_dash_pattern()
    else:
        pen.pdf.set_dash_pattern(pattern[0] * weight_mm, pattern[1] * weight_mm)


def _text(pen: PdfPen, item: Text, place: _Place) -> None:
    size_pt = item.cap_mm / CAP_PER_EM / PT_MM
    x, y = place(item.at)
    align = _ALIGN[item.anchor]
    if item.angle_deg:
        with pen.pdf.rotation(item.angle_deg, x, y):
            pen.write(x, y, item.text, size_pt, bold=item.is_bold, align=align, tone=item.tone)
        return
    if item.has_halo:
        width = pen.measure(item.text, size_pt, item.is_bold)
        left = x - align * width - HALO_MM
        high = item.cap_mm + 2 * HALO_MM
        pen.box(left, y - item.cap_mm - HALO_MM, width + 2 * HALO_MM, high, Tone.PAPER)
    pen.write(x, y, item.text, size_pt, bold=item.is_bold, align=align, tone=item.tone)


def _mark(pen: PdfPen, item: Mark, place: _Place) -> None:
    x, y = place(item.at)
    half = item.size_mm / 2
    pdf = pen.pdf
    kind = f"{item.shape} in {item.tone}" + ", filled" * item.is_filled
    record_item(pdf.page, kind, "", (x - half, y - half, x + half, y + half))
    pdf.set_dash_pattern()
    pdf.set_draw_color(*PRINT_TONES[item.tone])
    pdf.set_line_width(_STROKE_MM)
    pdf.set_fill_color(*(PRINT_TONES[item.tone] if item.is_filled else PRINT_TONES[Tone.PAPER]))
    if item.shape in {Shape.DISC, Shape.RING}:
        style = "DF" if item.shape is Shape.DISC else "D"
        pdf.ellipse(x - half, y - half, item.size_mm, item.size_mm, style=style)
    elif item.shape is Shape.CROSS:
        _cross(pdf, x, y, half)
    elif item.shape in {Shape.SQUARE, Shape.CROSSED_SQUARE}:
        pdf.rect(x - half, y - half, item.size_mm, item.size_mm, style="DF")
        if item.shape is Shape.CROSSED_SQUARE:
            pdf.set_draw_color(*PRINT_TONES[Tone.PAPER if item.is_filled else item.tone])
            _cross(pdf, x, y, half)
    else:
        pdf.polygon(_triangle(item.shape, x, y, half), style="DF")


def _cross(pdf: Any, x: float, y: float, half: float) -> None:
    pdf.line(x - half, y - half, x + half, y + half)
    pdf.line(x - half, y + half, x + half, y - half)


_TURNS = {
    Shape.TRIANGLE: 0,
    Shape.ARROW_UP: 0,
    Shape.ARROW_RIGHT: 90,
    Shape.ARROW_DOWN: 180,
    Shape.ARROW_LEFT: 270,
}


def _triangle(shape: Shape, x: float, y: float, half: float) -> list[Point]:
    """Corners of a triangle whose tip points where the shape says."""
    turn = math.radians(_TURNS[shape])
    corners = ((0.0, -half), (half, half), (-half, half))
    return [
        (x + a * math.cos(turn) - b * math.sin(turn), y + a * math.sin(turn) + b * math.cos(turn))
        for a, b in corners
    ]
