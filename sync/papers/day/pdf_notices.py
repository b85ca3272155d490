"""Parts of a printed day sheet, or the sentence in their place that they could not be made."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sync.papers.day.facts.day import DaySheet
from sync.papers.drawing.primitives import Drawing, Text
from sync.papers.pdf.flow import Piece
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, fit_text, paragraph
from sync.papers.wording.missing_sections import MissingSections

DrawInto = Callable[[float, float], Drawing]
"""Makes a drawing of a width and a height in millimetres."""
MakePieces = Callable[[PdfPen, DaySheet, float], list[Piece]]
"""Makes pieces for a column of a width in millimetres."""
PaintBand = Callable[[PdfPen, DaySheet, float, float, float], float]
"""Paints a band from a left, a top and with a width, and returns where it ends."""
_CAP_MM = 2.0
_LINE_MM = 4.0


def drawing_or_notice(name: str, into: DrawInto, width_mm: float, height_mm: float) -> Drawing:
    """A drawing, or an empty one that says that it could not be made."""
    made = MissingSections()
    found = made.make_or_notice(name, Drawing(width_mm, height_mm), into, width_mm, height_mm)
    told = tuple(Text((0.0, height_mm / 2), text, _CAP_MM) for text in made.told)
    return Drawing(found.width_mm, found.height_mm, found.items + told) if told else found


def pieces_or_notice(
    title: str, builds: Sequence[MakePieces], pen: PdfPen, day: DaySheet, width: float
) -> list[Piece]:
    """Pieces of a section, or a line that says that it could not be made."""
    made = MissingSections()
    pieces: list[Piece] = []
    for build in builds:
        pieces += made.make_or_notice(title, [], build, pen, day, width)
    return [*pieces, *(piece for text in made.told for piece in paragraph(pen, width, text))]


def band_or_notice(
    pen: PdfPen, day: DaySheet, band: PaintBand, left: float, top: float, width: float
) -> float:
    """Paint a band and return where it ends; one that can't be made is a line that says so."""
    made = MissingSections()
    end = made.make_or_notice(
        band.__name__.replace("_", " "), top, band, pen, day, left, top, width
    )
    for text in made.told:
        end += _LINE_MM
        pen.write(left, end - 1.0, fit_text(pen, text, width, BODY_PT), BODY_PT)
    return end
