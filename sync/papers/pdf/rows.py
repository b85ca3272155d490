"""Rows of words for a column: wrapped to their cells, one piece a line."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, replace

from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PT_MM, PdfPen

BODY_PT = 7.2
HEAD_PT = 8.3
LINE_MM = 2.95
HEAD_MM = 4.7
CELL_GAP_MM = 1.5
SHORT_MM = 20.0
KEEP_LINES = 4
"""A row of up to so many lines is not cut."""


@dataclass(frozen=True, slots=True)
class Cell:
    """A column of rows: its width, 0 for all that is left, and how its words stand."""

    width: float = 0.0
    align: float = 0.0
    bold: bool = False


@dataclass(frozen=True, slots=True)
class _Placed:
    """A cell at its place across the column."""

    left: float
    width: float
    align: float
    bold: bool

    @property
    def at(self) -> float:
        """Anchor of the words of the cell."""
        return self.left + self.align * self.width


def wrap(pen: PdfPen, text: str, width: float, size_pt: float, bold: bool = False) -> list[str]:
    """Cut a text into lines that fit; a word longer than a line is cut within."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            tried = f"{line} {word}" if line else word
            if pen.measure(tried, size_pt, bold) <= width:
                line = tried
                continue
            if line:
                lines.append(line)
            *full, line = _cut(pen, word, width, size_pt, bold)
            lines += full
        lines.append(line)
    return lines


def _cut(pen: PdfPen, word: str, width: float, size_pt: float, bold: bool) -> list[str]:
    parts = []
    while pen.measure(word, size_pt, bold) > width and len(word) > 1:
        fit, most = 1, len(word) - 1
        while fit < most:
            middle = (fit + most + 1) // 2
            if pen.measure(word[:middle], size_pt, bold) <= width:
                fit = middle
            else:
                most = middle - 1
        while fit > 1 and unicodedata.category(word[fit]).startswith("M"):
            fit -= 1
        parts.append(word[:fit])
        word = word[fit:]
    return [*parts, word]


def fit_text(pen: PdfPen, text: str, width: float, size_pt: float, bold: bool = False) -> str:
    """Text cut with three dots to a line that fits."""
    if pen.measure(text, size_pt, bold) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if pen.measure(text[:middle] + "...", size_pt, bold) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "..."


def rows(
    pen: PdfPen,
    width: float,
    cells: Sequence[Cell],
    texts: Sequence[Sequence[str]],
    *,
    struck: bool = False,
) -> list[Piece]:
    """Pieces for rows of words; ``struck`` ones have a line through the first cell's words."""
    spread = _spread(width, cells)
    pieces: list[Piece] = []
    for row in texts:
        columns = [
            wrap(pen, text, cell.width, BODY_PT, cell.bold)
            for text, cell in zip(row, spread, strict=True)
        ]
        count = max(map(len, columns))
        for number in range(count):
            line = [column[number] if number < len(column) else "" for column in columns]
            sticks = count <= KEEP_LINES and number < count - 1
            pieces.append(_line(spread, line, sticks, struck))
    return pieces


def _spread(width: float, cells: Sequence[Cell]) -> list[_Placed]:
    fixed = sum(cell.width for cell in cells) + CELL_GAP_MM * (len(cells) - 1)
    free = [cell for cell in cells if not cell.width]
    each = (width - fixed) / len(free) if free else 0.0
    placed, left = [], 0.0
    for cell in cells:
        wide = cell.width or each
        placed.append(_Placed(left, wide, cell.align, cell.bold))
        left += wide + CELL_GAP_MM
    return placed


def _line(spread: list[_Placed], texts: list[str], sticks: bool, struck: bool) -> Piece:
    def paint(pen: PdfPen, left: float, top: float) -> None:
        base = top + LINE_MM - 0.8
        for cell, text in zip(spread, texts, strict=True):
            at = left + cell.at
            wide = pen.write(at, base, text, BODY_PT, bold=cell.bold, align=cell.align)
            if struck and text and cell is spread[-1]:
                middle = base - 0.33 * BODY_PT * PT_MM
                pen.rule(at, middle, at + wide, middle, 0.3)

    return Piece(LINE_MM, paint, sticks)


def paragraph(pen: PdfPen, width: float, text: str, *, bold: bool = False) -> list[Piece]:
    """Pieces for running words."""
    return rows(pen, width, [Cell(bold=bold)], [[text]])


def column_heads(pen: PdfPen, width: float, cells: Sequence[Cell], names: Sequence[str]) -> Piece:
    """Line of column names, ruled below, that stays with the row after it."""
    spread = _spread(width, cells)

    def paint(pen: PdfPen, left: float, top: float) -> None:
        for cell, name in zip(spread, names, strict=True):
            pen.write(left + cell.at, top + 2.5, name, BODY_PT, align=cell.align, tone=Tone.PLANNED)
        pen.rule(left, top + 3.4, left + width, top + 3.4, 0.25)

    return Piece(LINE_MM + 0.9, paint, keep_with_next=True, is_head=True)


def section(width: float, title: str, pieces: Sequence[Piece]) -> Section:
    """A section under a ruled heading, repeated where it goes on; a short one is not parted."""
    if sum(piece.height for piece in pieces) <= SHORT_MM:
        last = len(pieces) - 1
        pieces = [replace(piece, keep_with_next=place < last) for place, piece in enumerate(pieces)]
    again = _head(width, f"{title}, continued")
    if pieces and pieces[0].is_head:
        again = again.over(pieces[0])
    return Section(_head(width, title), again, tuple(pieces))


def _head(width: float, title: str) -> Piece:
    def paint(pen: PdfPen, left: float, top: float) -> None:
        pen.write(left, top + 3.0, title, HEAD_PT, bold=True)
        pen.rule(left, top + 3.9, left + width, top + 3.9, 0.5)

    return Piece(HEAD_MM, paint, keep_with_next=True)
