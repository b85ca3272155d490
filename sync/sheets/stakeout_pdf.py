"""The morning's sheet as PDF: plan, passes with offsets, the collector's cut sheet."""

from __future__ import annotations

from sync.sheets.asbuilt.record_sections import record_section
from sync.sheets.pdf_day import A4_MM, LETTER_MM, MARGIN_MM
from sync.sheets.pdf_drawing import draw
from sync.sheets.pdf_flow import Piece, Placed, Section, fill
from sync.sheets.pdf_pen import Pen
from sync.sheets.pdf_rows import fitted, paragraph, section
from sync.sheets.plan_strip import draw_plan
from sync.sheets.primitives import Tone
from sync.sheets.stakeout_facts import CAUTIONS, StakedSurface, StakeoutSheet
from sync.sheets.stakeout_plan import LEGEND

HEAD_MM, RUNNING_MM, FOOT_MM = 13.0, 8.0, 7.0
PLAN_MM = 78.0
MOST_PAGES = 400


def build_stakeout_pdf(sheet: StakeoutSheet) -> bytes:
    """Print the sheet; the same book gives the same bytes."""
    width, height = LETTER_MM if sheet.is_us else A4_MM
    inside = width - 2 * MARGIN_MM
    with Pen(width, height) as pen:
        pen.describe(f"Stake-out, {sheet.job}", f"Code {sheet.code}", sheet.last_at_ms)
        placed = _placed(_sections(pen, sheet, inside), height)
        count = max((one.page for one in placed), default=0) + 1
        for number in range(count):
            pen.add_page()
            _paint_head(pen, sheet, width, number)
            for one in placed:
                if one.page == number:
                    one.piece.paint(pen, MARGIN_MM, MARGIN_MM + _head(number) + one.depth)
            _paint_foot(pen, sheet, (width, height), number, count)
        return pen.bytes()


def _head(number: int) -> float:
    return RUNNING_MM if number else HEAD_MM


def _placed(sections: list[Section], height: float) -> list[Placed]:
    rooms = [height - 2 * MARGIN_MM - FOOT_MM - _head(number) for number in range(MOST_PAGES)]
    placed = fill(sections, rooms, columns=1)
    assert placed is not None, "a section is taller than a page"
    return placed


def _sections(pen: Pen, sheet: StakeoutSheet, width: float) -> list[Section]:
    cautions = [piece for text in CAUTIONS for piece in paragraph(pen, width, text)]
    made = [section(width, "Before anything is cut", cautions)]
    for surface in sheet.surfaces:
        made.append(_plan(pen, surface, width))
        made += [record_section(pen, table, width) for table in surface.tables]
    return made + [record_section(pen, table, width) for table in sheet.cuts]


def _plan(pen: Pen, surface: StakedSurface, width: float) -> Section:
    """The plan of a surface with what is cut on it, and where the tapes lie."""
    told = [piece for text in surface.baselines for piece in paragraph(pen, width, text)]
    if not told:
        return section(width, surface.name, paragraph(pen, width, "No line is planned here."))
    pieces = list(told)
    if surface.plan is not None and surface.plan.points():
        drawing = draw_plan(surface.plan, width, PLAN_MM)

        def paint(pen: Pen, left: float, top: float) -> None:
            draw(pen, drawing, left, top)

        pieces = [Piece(PLAN_MM + 1.5, paint, sticks=True), *paragraph(pen, width, LEGEND), *told]
    return section(width, f"{surface.name}: {surface.n_left} passes to drive", pieces)


def _paint_head(pen: Pen, sheet: StakeoutSheet, width: float, number: int) -> None:
    left, top, right = MARGIN_MM, MARGIN_MM, width - MARGIN_MM
    size = 8.5 if number else 15.0
    base = top + (3.2 if number else 5.2)
    room = right - left - 50
    pen.write(left, base, fitted(pen, sheet.job, room, size, True), size, bold=True)
    pen.write(right, base, "Stake-out", 8.5 if number else 13.0, bold=not number, align=1)
    if not number:
        pen.write(left, top + 10, fitted(pen, sheet.place, right - left, 8.5), 8.5)
    below = top + (4.8 if number else 11.8)
    pen.rule(left, below, right, below, 0.25 if number else 0.5)


def _paint_foot(
    pen: Pen, sheet: StakeoutSheet, size: tuple[float, float], number: int, count: int
) -> None:
    base, right = size[1] - MARGIN_MM - 1.0, size[0] - MARGIN_MM
    pen.rule(MARGIN_MM, base - 3.6, right, base - 3.6, 0.25)
    words = f"From the plan, not from a survey. Code of the book {sheet.code}"
    pen.write(MARGIN_MM, base, words, 6.6, tone=Tone.PLANNED)
    pen.write(right, base, f"page {number + 1} of {count}", 6.6, align=1, tone=Tone.PLANNED)
