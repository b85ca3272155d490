"""A take-off as PDF: every quantity beside the arithmetic that led to it."""

from __future__ import annotations

from sync.papers.pdf.column import ColumnPaper, build_column_pdf
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import Cell, column_heads, paragraph, rows, section
from sync.papers.takeoff.facts import AN_ESTIMATE, NO_PRICES, TakeoffSection, TakeoffSheet
from sync.papers.wording.cautions import TAKEOFF, in_both

ITEM_MM, AMOUNT_MM = 56.0, 22.0
_CELLS = (Cell(ITEM_MM), Cell(AMOUNT_MM, align=1, bold=True), Cell())
_NAMES = ("what", "how much", "worked out from")
_MONEY_NAMES = ("what", "comes to", "worked out from")
_FOOT = "Figures are rounded where they are shown, never before; ~ marks a size that is not whole."


def build_takeoff_pdf(sheet: TakeoffSheet) -> bytes:
    """Print the take-off; the same take-off gives the same bytes."""
    paper = ColumnPaper(
        "Take-off",
        sheet.job,
        sheet.place,
        _FOOT,
        sheet.code,
        sheet.last_at_ms,
        sheet.is_us,
        dated=f"as planned on {sheet.day}" if sheet.day else "",
        warning=f"A trial, not the plan: {sheet.tried}" if sheet.tried else "",
        has_tall_head=True,
    )
    return build_column_pdf(paper, lambda pen, width: _sections(pen, sheet, width))


def _sections(pen: PdfPen, sheet: TakeoffSheet, width: float) -> list[Section]:
    made = [_table(pen, sheet.whole, width, _NAMES)]
    if sheet.money.lines:
        money = _rows(pen, sheet.money, width, _MONEY_NAMES)
        pieces = [*money, *paragraph(pen, width, AN_ESTIMATE)]
    else:
        pieces = paragraph(pen, width, NO_PRICES)
    made.append(section(width, "Estimate", pieces))
    made.append(_told(pen, "Cautions", in_both(TAKEOFF), width))
    for title, sentences in (("Not in it", sheet.missing), ("Reckoned with", sheet.basis)):
        if sentences:
            made.append(_told(pen, title, sentences, width))
    return made + [_table(pen, part, width, _NAMES) for part in sheet.parts]


def _told(pen: PdfPen, title: str, sentences: tuple[str, ...], width: float) -> Section:
    told = [piece for text in sentences for piece in paragraph(pen, width, text)]
    return section(width, title, told)


def _table(pen: PdfPen, part: TakeoffSection, width: float, names: tuple[str, ...]) -> Section:
    """One heading with its lines, or a word where there are none."""
    pieces = _rows(pen, part, width, names) or paragraph(pen, width, "Nothing is taken off.")
    return section(width, part.title, pieces)


def _rows(pen: PdfPen, part: TakeoffSection, width: float, names: tuple[str, ...]) -> list[Piece]:
    texts = [[line.item, line.shown, f"= {line.arithmetic}"] for line in part.lines]
    if not texts:
        return []
    return [column_heads(pen, width, _CELLS, names), *rows(pen, width, _CELLS, texts)]
