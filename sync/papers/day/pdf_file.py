"""A day sheet as PDF: one page for an ordinary day, as many as a long one needs."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial

from sync.papers.day.facts.day import CAUTIONS, HOW_TO_PROVE, DaySheet
from sync.papers.day.pdf_head import (
    needs_band,
    numbers_band,
    paint_rows,
    quality_rows,
    quantity_rows,
    rows_height,
    status_band,
    title_band,
)
from sync.papers.day.pdf_notices import (
    DrawInto,
    band_or_notice,
    drawing_or_notice,
    pieces_or_notice,
)
from sync.papers.day.pdf_sections import flowing_sections
from sync.papers.day.pdf_signatures import SIGNATURES_MM, paint_signatures
from sync.papers.drawing.plan_strip import draw_plan
from sync.papers.drawing.primitives import Tone
from sync.papers.drawing.profile import draw_profile
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.flow import (
    COLUMNS,
    GUTTER_MM,
    Piece,
    PlacedPiece,
    Section,
    balance_columns,
    fill_columns,
    page_depth,
)
from sync.papers.pdf.page_sizes import A4_MM, LETTER_MM, MARGIN_MM
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, fit_text, section, wrap
from sync.papers.wording.safe_text import single_line

FOOT_MM = 7.6
RUNNING_HEAD_MM = 8.0
FIGURE_MM = (128.0, 110.0, 96.0, 84.0, 76.0, 68.0, 62.0, 56.0, 51.0, 47.0, 43.0, 40.0, 38.0, 36.0)
"""Heights tried for the drawings, largest first: what is left of the page is theirs."""
FIGURE_ON_LONG_DAYS_MM = 84.0
"""Tallest drawing on a day of several pages: what was done must begin on the first."""
MOST_PAGES = 200

_Figure = tuple[str, DrawInto]
WIDE_FIGURE_MM = tuple(size for size in FIGURE_MM if size > 80.0)


@dataclass(frozen=True, slots=True)
class _Page:
    """Sizes of the page and of what every page keeps."""

    width: float
    height: float

    @property
    def inside(self) -> float:
        """Width between the margins."""
        return self.width - 2 * MARGIN_MM

    @property
    def bottom(self) -> float:
        """Top of the foot, from the top of the page."""
        return self.height - MARGIN_MM - FOOT_MM

    @property
    def column(self) -> float:
        """Width of one column."""
        return (self.inside - GUTTER_MM * (COLUMNS - 1)) / COLUMNS


@dataclass(frozen=True, slots=True)
class _Layout:
    """What was decided before anything is drawn: drawings' height, pieces at their places."""

    figure_mm: float
    tops: tuple[float, ...]
    placed: tuple[PlacedPiece, ...]


def build_pdf(day: DaySheet) -> bytes:
    """Print the sheet; the same day gives the same bytes."""
    page = _Page(*(LETTER_MM if day.figures.is_us else A4_MM))
    head = day.head
    with PdfPen(page.width, page.height) as pen:
        title = f"Day sheet {head.day}, {single_line(head.job)}"
        subject = f"Revision {head.revision}, check code {head.code}"
        pen.describe(title, subject, head.last_at_ms)
        _print(pen, day, page)
        return pen.bytes()


def _print(pen: PdfPen, day: DaySheet, page: _Page) -> None:
    sections = _quality_section(pen, day, page) + flowing_sections(pen, day, page.column)
    pen.add_page()
    top = _paint_fixed(pen, day, page)
    band, layout = _best(page, sections, _figures(day), top, _end_height(pen, day, page))
    _paint_figures(pen, page, band, top, layout.figure_mm)
    for number, start in enumerate(layout.tops):
        if number:
            pen.add_page()
            _paint_running_head(pen, day, page)
        for one in layout.placed:
            if one.page == number:
                left = MARGIN_MM + one.column * (page.column + GUTTER_MM)
                one.piece.paint(pen, left, start + one.depth)
        if number == len(layout.tops) - 1:
            depth = start + page_depth(layout.placed, number) + 5 if number else page.bottom
            _paint_end(pen, day, page, min(depth, page.bottom - _end_height(pen, day, page)))
        _paint_foot(pen, day, page, number + 1, len(layout.tops))


def _best(
    page: _Page, sections: list[Section], figures: list[_Figure], top: float, ends: float
) -> tuple[list[_Figure], _Layout]:
    """Two drawings stand side by side; one alone leads the columns, or fills a quiet page."""
    if len(figures) == 1:
        wide = _Flow(page, sections, [], figures, top, ends).on_one_page(WIDE_FIGURE_MM)
        if wide is not None:
            return figures, wide
        return [], _Flow(page, sections, figures, [], top, ends).laid_out()
    return figures[:2], _Flow(page, sections, figures[2:], figures[:2], top, ends).laid_out()


def _figures(day: DaySheet) -> list[_Figure]:
    """Drawings in the order they are looked at: first plan, first profile, then the others."""
    plans: list[_Figure] = [
        (single_line(view.name), partial(draw_plan, view)) for view in day.plans
    ]
    profiles: list[_Figure] = [
        (single_line(view.name), partial(draw_profile, view)) for view in day.profiles
    ]
    found = [*plans[:1], *profiles[:1], *plans[1:], *profiles[1:]]
    return [(name, partial(drawing_or_notice, name, into)) for name, into in found]


MOST_QUALITY_ROWS = 9


def _has_room_for_quality(day: DaySheet) -> bool:
    return len(day.quality) + 2 * len(day.grades) <= MOST_QUALITY_ROWS


def _quality_section(pen: PdfPen, day: DaySheet, page: _Page) -> list[Section]:
    """Quality as a section of its own where it is too long to stand beside the quantities."""
    if _has_room_for_quality(day):
        return []
    rows = pieces_or_notice("quality", (quality_rows,), pen, day, page.column)
    return [section(page.column, "Quality", rows)]


@dataclass(frozen=True, slots=True)
class _Flow:
    """What is to be placed: sections, drawings among them, and drawings in a band above."""

    page: _Page
    sections: list[Section]
    flowing: list[_Figure]
    band: list[_Figure]
    fixed: float
    ends: float
    made: dict[float, list[Section]] = field(default_factory=dict)

    def laid_out(self) -> _Layout:
        """Find the fewest pages, and on a single page the largest drawings, that hold all."""
        sizes = FIGURE_MM if self.flowing or self.band else (0.0,)
        one = self.on_one_page(sizes)
        return one or self._on_more_pages(tuple(mm for mm in sizes if mm <= FIGURE_ON_LONG_DAYS_MM))

    def on_one_page(self, sizes: tuple[float, ...]) -> _Layout | None:
        """Lay out on a single page with the largest drawings that fit, or return None."""
        for figure_mm in sizes:
            top = self._first_top(figure_mm)
            placed = balance_columns(self._all(figure_mm), [self.page.bottom - self.ends - top])
            if placed is not None:
                return _Layout(figure_mm, (top,), tuple(placed))
        return None

    def _first_top(self, figure_mm: float) -> float:
        return self.fixed + (figure_mm + 2.5 if self.band else 0.0)

    def _on_more_pages(self, sizes: tuple[float, ...]) -> _Layout:
        """Fewest pages with the smallest drawings; then the largest that need no more."""
        for count in range(self._least_pages(sizes[-1]), MOST_PAGES):
            if self._on_pages(count, sizes[-1]) is not None:
                tried = (self._on_pages(count, figure_mm) for figure_mm in sizes)
                return next(layout for layout in tried if layout is not None)
        raise AssertionError("a day has fewer lines than two hundred pages hold")

    def _least_pages(self, figure_mm: float) -> int:
        """Pages that hold all if the last had as much room as the others: never too many."""
        rooms = self._rooms(MOST_PAGES, figure_mm)
        placed = fill_columns(self._all(figure_mm), rooms) or []
        return max(2, 1 + max((one.page for one in placed), default=0))

    def _rooms(self, count: int, figure_mm: float) -> list[float]:
        """Height of the columns of each page, what ends the sheet not taken off yet."""
        later = self.page.bottom - MARGIN_MM - RUNNING_HEAD_MM
        return [self.page.bottom - self._first_top(figure_mm), *[later] * (count - 1)]

    def _on_pages(self, count: int, figure_mm: float) -> _Layout | None:
        first, later = self._first_top(figure_mm), MARGIN_MM + RUNNING_HEAD_MM
        rooms = self._rooms(count, figure_mm)
        rooms[-1] -= self.ends
        placed = balance_columns(self._all(figure_mm), rooms)
        if placed is None:
            return None
        return _Layout(figure_mm, (first, *[later] * (count - 1)), tuple(placed))

    def _all(self, figure_mm: float) -> list[Section]:
        """Sections in order; a single drawing leads, several others come last."""
        if figure_mm not in self.made:
            drawings = [self._drawing(name, into, figure_mm) for name, into in self.flowing]
            both = (self.sections, drawings) if self.band else (drawings, self.sections)
            self.made[figure_mm] = [*both[0], *both[1]]
        return self.made[figure_mm]

    def _drawing(self, name: str, into: DrawInto, figure_mm: float) -> Section:
        drawing = into(self.page.column, figure_mm - 5.0)
        piece = Piece(drawing.height_mm, lambda pen, left, top: draw(pen, drawing, left, top))
        return section(self.page.column, name, [piece])


def _paint_fixed(pen: PdfPen, day: DaySheet, page: _Page) -> float:
    top, left, width = MARGIN_MM, MARGIN_MM, page.inside
    for band in (title_band, status_band, needs_band, numbers_band):
        top = band_or_notice(pen, day, band, left, top, width)
    pen.rule(left, top, left + width, top, 0.5)
    top += 1.2
    has_room = _has_room_for_quality(day)
    wide = page.column if has_room else width
    quantities = pieces_or_notice("quantities", (quantity_rows,), pen, day, wide)
    paint_rows(pen, quantities, left, top)
    beside: list[Piece] = []
    if has_room:
        beside = pieces_or_notice("quality", (quality_rows,), pen, day, page.column)
        paint_rows(pen, beside, left + page.column + GUTTER_MM, top)
    return top + max(rows_height(quantities), rows_height(beside)) + 2.0


def _paint_figures(
    pen: PdfPen, page: _Page, figures: list[_Figure], top: float, figure_mm: float
) -> None:
    if not figures:
        return
    each = (page.inside - GUTTER_MM * (len(figures) - 1)) / len(figures)
    for place, (name, into) in enumerate(figures):
        left = MARGIN_MM + place * (each + GUTTER_MM)
        pen.rule(left, top, left + each, top, 0.5)
        pen.write(left, top + 3.6, fit_text(pen, name, each, 8.5, True), 8.5, bold=True)
        draw(pen, into(each, figure_mm - 4.6), left, top + 4.6)


def _paint_running_head(pen: PdfPen, day: DaySheet, page: _Page) -> None:
    head = day.head
    base = MARGIN_MM + 4
    job = fit_text(pen, f"{single_line(head.job)}, day sheet continued", page.inside - 50, 10, True)
    pen.write(MARGIN_MM, base, job, 10, bold=True)
    pen.write(page.width - MARGIN_MM, base, head.day_words, 10, bold=True, align=1)


def _end_lines(pen: PdfPen, day: DaySheet, page: _Page) -> list[str]:
    """What stands above the signatures: entries that hold more, if any do; cautions."""
    said = [day.holding_more] if day.holding_more else []
    return [*said, *wrap(pen, "Cautions. " + " ".join(CAUTIONS), page.inside, 7)]


def _end_height(pen: PdfPen, day: DaySheet, page: _Page) -> float:
    return 3.0 * len(_end_lines(pen, day, page)) + 2.0 + SIGNATURES_MM


def _paint_end(pen: PdfPen, day: DaySheet, page: _Page, top: float) -> None:
    """Cautions and signatures: at the foot of a single page, else after what was said last."""
    top += 0.6
    for line in _end_lines(pen, day, page):
        pen.write(MARGIN_MM, top + 2.4, line, 7, tone=Tone.PLANNED)
        top += 3.0
    paint_signatures(pen, day, MARGIN_MM, top + 1.4, page.inside)


def _paint_foot(pen: PdfPen, day: DaySheet, page: _Page, number: int, count: int) -> None:
    """On every page: which page of how many, of what, and how to prove it."""
    head, left, right = day.head, MARGIN_MM, page.width - MARGIN_MM
    top = page.height - MARGIN_MM - FOOT_MM + 1.6
    pen.rule(left, top, right, top, 0.25)
    code = f"Check code {head.code}"
    room = page.inside - pen.measure(code, BODY_PT, True) - 4
    what = f"Page {number} of {count}, {head.day}, revision {head.revision}, "
    job = fit_text(pen, single_line(head.job), room - pen.measure(what, BODY_PT), BODY_PT)
    pen.write(left, top + 3.0, what + job, BODY_PT)
    pen.write(right, top + 3.0, code, BODY_PT, bold=True, align=1)
    note = f"Record by the contractor, {head.units}. {HOW_TO_PROVE} {head.code}"
    pen.write(left, top + 5.9, note, 7, tone=Tone.PLANNED)
