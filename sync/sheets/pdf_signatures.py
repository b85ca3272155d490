"""The signature boxes of a day sheet: strokes as they were drawn, and what they say."""

from __future__ import annotations

from sync.sheets.crew_facts import SignatureBox
from sync.sheets.day_facts import DaySheet
from sync.sheets.pdf_pen import Pen
from sync.sheets.pdf_rows import BODY_PT, fitted
from sync.sheets.primitives import Tone
from sync.sheets.safe_text import one_line

SIGNATURES_MM = 23.0
BOX_MM = 11.5
SPAN = 1000
"""A stroke's places run from 0 to this, rightward and upward from the lower left."""


def paint_signatures(pen: Pen, day: DaySheet, left: float, top: float, width: float) -> None:
    """Two boxes side by side: the foreman's and the owner's."""
    each = (width - 6) / 2
    signed = {box.role: box for box in day.signatures}
    for place, role in enumerate(("foreman", "owner")):
        x = left + place * (each + 6)
        title = "Foreman" if role == "foreman" else "Owner, or for the owner"
        _box(pen, signed.get(role), title, x, top, each)


def _box(
    pen: Pen, signed: SignatureBox | None, title: str, left: float, top: float, width: float
) -> None:
    pen.rule(left, top, left + width, top, 0.5)
    pen.write(left, top + 3.6, title, 8.5, bold=True)
    line = top + 4.4 + BOX_MM
    pen.rule(left, line, left + width, line, 0.35)
    if signed is None:
        pen.write(left, line + 3.2, "not signed: name, date, time", BODY_PT, tone=Tone.PLANNED)
        return
    _strokes(pen, signed, left + 2, line - 0.5, width - 4)
    said = f"{one_line(signed.name)}, {signed.at}. {signed.says}"
    pen.write(left, line + 3.2, fitted(pen, said, width, BODY_PT), BODY_PT)
    if not signed.is_current:
        note = f"Signed over {signed.check_code}: entries were written since."
        pen.write(left, line + 6.2, fitted(pen, note, width, BODY_PT, True), BODY_PT, bold=True)


def _strokes(pen: Pen, signed: SignatureBox, left: float, bottom: float, width: float) -> None:
    pen.pdf.set_draw_color(0)
    pen.pdf.set_line_width(0.45)
    for stroke in signed.strokes:
        points = [
            (left + min(x, SPAN) / SPAN * width, bottom - min(y, SPAN) / SPAN * (BOX_MM - 1))
            for x, y in stroke
        ]
        if len(points) == 1:
            points.append((points[0][0] + 0.3, points[0][1]))
        if points:
            pen.pdf.polyline(points)
