"""The signature boxes of a day sheet: strokes as they were drawn, and what they say."""

from __future__ import annotations

from sync.papers.day.facts.crew import SignatureBox
from sync.papers.day.facts.day import DaySheet
from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, fit_text
from sync.papers.wording.safe_text import single_line

SIGNATURES_MM = 20.5
BOX_MM = 9.6
SPAN = 1000
"""Strokes are in thousandths of the width they were drawn in, rightward and upward."""


def paint_signatures(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> None:
    """Two boxes side by side: the foreman's and the owner's."""
    each = (width - 6) / 2
    signed = {box.role: box for box in day.signatures}
    for place, role in enumerate(("foreman", "owner")):
        x = left + place * (each + 6)
        title = "Foreman" if role == "foreman" else "Owner, or for the owner"
        _box(pen, signed.get(role), title, x, top, each)


def _box(
    pen: PdfPen, signed: SignatureBox | None, title: str, left: float, top: float, width: float
) -> None:
    pen.rule(left, top, left + width, top, 0.5)
    pen.write(left, top + 3.6, title, 8.5, bold=True)
    line = top + 4.4 + BOX_MM
    pen.rule(left, line, left + width, line, 0.35)
    if signed is None:
        pen.write(left, line + 3.2, "not signed: name, date, time", BODY_PT, tone=Tone.PLANNED)
        return
    _strokes(pen, signed, left + 2, line - 0.7, width - 4)
    said = f"{single_line(signed.name)}, {signed.at}. {signed.says}"
    pen.write(left, line + 3.2, fit_text(pen, said, width, BODY_PT), BODY_PT)
    if not signed.is_current:
        note = f"Signed over {signed.check_code}, entries were written since"
        pen.write(left, line + 6.2, fit_text(pen, note, width, BODY_PT), BODY_PT, bold=True)


def _strokes(pen: PdfPen, signed: SignatureBox, left: float, bottom: float, width: float) -> None:
    """Draw the pen's strokes as large as the box allows, neither stretched nor cut."""
    places = [place for stroke in signed.strokes for place in stroke]
    if not places:
        return
    low_x, low_y = min(x for x, _ in places), min(y for _, y in places)
    wide = max(max(x for x, _ in places) - low_x, 1)
    high = max(max(y for _, y in places) - low_y, 1)
    scale = min(width / wide, (BOX_MM - 1.5) / high, width / SPAN)
    pen.pdf.set_draw_color(0)
    pen.pdf.set_line_width(0.45)
    for stroke in signed.strokes:
        points = [(left + (x - low_x) * scale, bottom - (y - low_y) * scale) for x, y in stroke]
        if len(points) == 1:
            points.append((points[0][0] + 0.3, points[0][1]))
        if points:
            pen.pdf.polyline(points)
