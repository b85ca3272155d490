"""A take-off as PDF: every quantity beside the arithmetic that led to it."""

from __future__ import annotations

from dataclasses import dataclass

from sync.sheets.pdf_day import A4_MM, LETTER_MM, MARGIN_MM
from sync.sheets.pdf_flow import Piece, Placed, Section, fill
from sync.sheets.pdf_pen import Pen
from sync.sheets.pdf_rows import Cell, column_heads, fitted, paragraph, rows, section
from sync.sheets.primitives import Tone
from sync.sheets.takeoff_facts import AN_ESTIMATE, NO_PRICES, ShownPart, TakeoffSheet

HEAD_MM = 17.0
RUNNING_MM = 8.0
FOOT_MM = 7.0
MOST_PAGES = 400
ITEM_MM, AMOUNT_MM = 56.0, 22.0
_CELLS = (Cell(ITEM_MM), Cell(AMOUNT_MM, align=1, bold=True), Cell())
_NAMES = ("what", "how much", "worked out from")
_MONEY_NAMES = ("what", "comes to", "worked out from")


@dataclass(frozen=True, slots=True)
class _Page:
    """Size of a page, and what is free on it."""

    width: float
    height: float

    @property
    def inside(self) -> float:
        """Width between the margins."""
        return self.width - 2 * MARGIN_MM

    def room(self, number: int) -> float:
        """Height that is free on a page, the first being 0."""
        return self.height - 2 * MARGIN_MM - FOOT_MM - self.head(number)

    def head(self, number: int) -> float:
        """Height of what stands on top of a page."""
        return RUNNING_MM if number else HEAD_MM


def build_takeoff_pdf(sheet: TakeoffSheet) -> bytes:
    """Print the take-off; the same take-off gives the same bytes."""
    page = _Page(*(LETTER_MM if sheet.is_us else A4_MM))
    with Pen(page.width, page.height) as pen:
        pen.describe(f"Take-off, {sheet.job}", f"Code {sheet.code}", sheet.last_at_ms)
        placed = _placed(_sections(pen, sheet, page.inside), page)
        count = max((one.page for one in placed), default=0) + 1
        for number in range(count):
            pen.add_page()
            _paint_head(pen, sheet, page, number)
            for one in placed:
                if one.page == number:
                    top = MARGIN_MM + page.head(number) + one.depth
                    one.piece.paint(pen, MARGIN_MM, top)
            _paint_foot(pen, sheet, page, number, count)
        return pen.bytes()


def _placed(sections: list[Section], page: _Page) -> list[Placed]:
    """Every piece at its place, in one column a page."""
    rooms = [page.room(number) for number in range(MOST_PAGES)]
    placed = fill(sections, rooms, columns=1)
    assert placed is not None, "a section is taller than a page"
    return placed


def _sections(pen: Pen, sheet: TakeoffSheet, width: float) -> list[Section]:
    made = [_table(pen, sheet.whole, width, _NAMES)]
    if sheet.money.lines:
        money = _rows(pen, sheet.money, width, _MONEY_NAMES)
        pieces = [*money, *paragraph(pen, width, AN_ESTIMATE)]
    else:
        pieces = paragraph(pen, width, NO_PRICES)
    made.append(section(width, "Estimate", pieces))
    for title, sentences in (("Not in it", sheet.missing), ("Reckoned with", sheet.basis)):
        if sentences:
            told = [piece for text in sentences for piece in paragraph(pen, width, text)]
            made.append(section(width, title, told))
    return made + [_table(pen, part, width, _NAMES) for part in sheet.parts]


def _table(pen: Pen, part: ShownPart, width: float, names: tuple[str, ...]) -> Section:
    """One heading with its lines, or a word where there are none."""
    pieces = _rows(pen, part, width, names) or paragraph(pen, width, "Nothing is taken off.")
    return section(width, part.title, pieces)


def _rows(pen: Pen, part: ShownPart, width: float, names: tuple[str, ...]) -> list[Piece]:
    texts = [[line.item, line.shown, f"= {line.arithmetic}"] for line in part.lines]
    if not texts:
        return []
    return [column_heads(pen, width, _CELLS, names), *rows(pen, width, _CELLS, texts)]


def _paint_head(pen: Pen, sheet: TakeoffSheet, page: _Page, number: int) -> None:
    left, top, right = MARGIN_MM, MARGIN_MM, page.width - MARGIN_MM
    if number:
        pen.write(
            left, top + 3.2, fitted(pen, sheet.job, page.inside - 30, 8.5, True), 8.5, bold=True
        )
        pen.write(right, top + 3.2, "Take-off", 8.5, align=1)
        pen.rule(left, top + 4.8, right, top + 4.8, 0.25)
        return
    pen.write(left, top + 5.2, fitted(pen, sheet.job, page.inside - 32, 15, True), 15, bold=True)
    pen.write(right, top + 5.0, "Take-off", 13, bold=True, align=1)
    day = f"as planned on {sheet.day}" if sheet.day else ""
    pen.write(right, top + 10, day, 8.5, align=1)
    room = page.inside - pen.measure(day, 8.5) - 4
    pen.write(left, top + 10, fitted(pen, sheet.place, room, 8.5), 8.5)
    if sheet.tried:
        tried = fitted(pen, f"A trial, not the plan: {sheet.tried}", page.inside, 8.5, True)
        pen.write(left, top + 14.2, tried, 8.5, bold=True)
    pen.rule(left, top + 15.6, right, top + 15.6, 0.5)


def _paint_foot(pen: Pen, sheet: TakeoffSheet, page: _Page, number: int, count: int) -> None:
    base = page.height - MARGIN_MM - 1.0
    pen.rule(MARGIN_MM, base - 3.6, page.width - MARGIN_MM, base - 3.6, 0.25)
    words = (
        "Figures are rounded where they are shown, never before; ~ marks a size that is not whole."
    )
    pen.write(MARGIN_MM, base, f"{words} Code of the book {sheet.code}", 6.6, tone=Tone.PLANNED)
    right = page.width - MARGIN_MM
    pen.write(right, base, f"page {number + 1} of {count}", 6.6, align=1, tone=Tone.PLANNED)
