"""Parts of a printed day sheet, or the sentence in their place that they could not be made."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from sync.papers.day.facts.day import DaySheet
from sync.papers.drawing.primitives import Drawing, Text
from sync.papers.pdf.flow import Piece
from sync.papers.pdf.pen import Pen
from sync.papers.pdf.rows import BODY_PT, fitted, paragraph
from sync.papers.wording.unmade import Unmade

DrawInto = Callable[[float, float], Drawing]
"""Makes a drawing of a width and a height in millimetres."""
MakePieces = Callable[[Pen, DaySheet, float], list[Piece]]
"""Makes pieces for a column of a width in millimetres."""
PaintBand = Callable[[Pen, DaySheet, float, float, float], float]
"""Paints a band from a left, a top and with a width, and returns where it ends."""
_CAP_MM = 2.0
_LINE_MM = 4.0


def drawn_or_said(name: str, into: DrawInto, width_mm: float, height_mm: float) -> Drawing:
    """A drawing, or an empty one that says that it could not be made."""
    made = Unmade()
    found = made.instead(name, Drawing(width_mm, height_mm), into, width_mm, height_mm)
    told = tuple(Text((0.0, height_mm / 2), text, _CAP_MM) for text in made.told)
    return Drawing(found.width_mm, found.height_mm, found.items + told) if told else found


def pieces_or_said(
    title: str, builds: Sequence[MakePieces], pen: Pen, day: DaySheet, width: float
) -> list[Piece]:
    """Pieces of a section, or a line that says that it could not be made."""
    made = Unmade()
    pieces: list[Piece] = []
    for build in builds:
        pieces += made.instead(title, [], build, pen, day, width)
    return [*pieces, *(piece for text in made.told for piece in paragraph(pen, width, text))]


def band_or_said(
    pen: Pen, day: DaySheet, band: PaintBand, left: float, top: float, width: float
) -> float:
    """Paint a band and return where it ends; one that can't be made is a line that says so."""
    made = Unmade()
    end = made.instead(band.__name__.replace("_", " "), top, band, pen, day, left, top, width)
    for text in made.told:
        end += _LINE_MM
        pen.write(left, end - 1.0, fitted(pen, text, width, BODY_PT), BODY_PT)
    return end
