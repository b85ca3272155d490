"""The record of a job as one PDF for keeping: first sheet, plans, profiles, tables, photos."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from sync.papers.asbuilt.features.plots import plots_of
from sync.papers.asbuilt.pages.cover_page import Cover, page_lines, paint_cover
from sync.papers.asbuilt.pages.flow_pages import column_mm, flow_pages
from sync.papers.asbuilt.pages.page_types import HEAD_MM, Frame, Page
from sync.papers.asbuilt.pages.photo_files import PhotoFile, PhotoPrints
from sync.papers.asbuilt.pages.photo_pages import not_printed, photo_pages
from sync.papers.asbuilt.pages.plan_pages import plan_pages
from sync.papers.asbuilt.pages.profile_pages import profile_pages
from sync.papers.asbuilt.pages.tie_sketches import sketch_section
from sync.papers.asbuilt.plans.paper_sizes import (
    MARGIN_MM,
    PaperSheet,
    PaperSize,
    Scale,
    default_paper,
)
from sync.papers.asbuilt.plans.plan_sets import PlanSet, plan_sets
from sync.papers.asbuilt.records.after_rain import has_any, rain_drawing
from sync.papers.asbuilt.records.care import CARE, CARE_TITLE, SAFETY
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.asbuilt.records.record_sections import record_section, words_section
from sync.papers.drawing.primitives import Drawing
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import fit_text, section
from sync.papers.wording.missing_sections import MissingSections, yield_or_notice
from sync.papers.wording.safe_text import single_line

FIRST_NAME = "This sheet: whose record, quantities, acceptance"
FIRST_PLAN = 2
"""Plans follow the first sheet."""
AFTER_RAIN_TITLE = "Appendix: after the rain"


def no_photo_files(name: str) -> bytes | None:
    """Source of photo files that has none."""
    return None


def build_as_built_pdf(
    facts: Facts,
    *,
    paper: PaperSize | None = None,
    scale: Scale | None = None,
    file_of: PhotoFile = no_photo_files,
    files: tuple[tuple[str, str], ...] = (),
) -> bytes:
    """Print the record; the same book on the same paper gives the same bytes.

    Raises
    ------
    ScaleTooLargeError
        If the scale asked for would take more sheets than can be laid out.
    """
    sheet = PaperSheet(paper or default_paper(facts.head.is_us))
    frame = Frame(sheet, facts.head)
    with PdfPen(sheet.width, sheet.height, is_archived=True) as pen:
        title = f"As built, {single_line(facts.head.job)}"
        pen.describe(title, f"Check code {facts.head.code}", facts.head.last_at_ms)
        made = MissingSections()
        plots = made.make_or_notice("plans", [], plots_of, facts.state, facts.job)
        sets = made.make_or_notice("plans", [], plan_sets, plots, sheet, scale, FIRST_PLAN)
        pages = list(_pages(pen, frame, facts, sets, PhotoPrints(file_of)))
        pages += [_said_page(frame, text) for text in made.told]
        cover = Cover(facts.standing, facts.on_the_cover, sets, files)
        names = page_lines([Page(FIRST_NAME, lambda pen: None), *pages])
        first = Page(FIRST_NAME, partial(paint_cover, frame=frame, cover=cover, names=names))
        _print(pen, frame, [first, *pages])
        return pen.bytes()


def _print(pen: PdfPen, frame: Frame, pages: list[Page]) -> None:
    for number, page in enumerate(pages, start=1):
        pen.add_page()
        made = MissingSections()
        made.make_or_notice(page.name, None, page.paint, pen)
        for text in made.told:
            _say(pen, frame, text)
        frame.foot(pen, number, len(pages))


def _say(pen: PdfPen, frame: Frame, text: str) -> None:
    frame.running_head(pen, "Not made")
    pen.write(MARGIN_MM, MARGIN_MM + HEAD_MM + 6, fit_text(pen, text, frame.sheet.inside, 9), 9)


def _said_page(frame: Frame, text: str) -> Page:
    """A page in place of those that could not be laid out."""
    return Page("Not made", lambda pen: _say(pen, frame, text))


def _pages(
    pen: PdfPen, frame: Frame, facts: Facts, sets: list[PlanSet], prints: PhotoPrints
) -> Iterator[Page]:
    parts: tuple[tuple[str, Callable[[], Iterable[Page]]], ...] = (
        ("plans", lambda: plan_pages(frame, sets, facts.job)),
        ("profiles", lambda: profile_pages(frame, facts.state, facts.job)),
        ("tables", lambda: flow_pages(frame, list(_sections(pen, frame, facts, prints)))),
        ("photos", lambda: photo_pages(frame, facts.job, prints)),
    )
    for name, pages in parts:
        yield from yield_or_notice(name, pages, partial(_said_page, frame))


_ON_THE_COVER = frozenset({"job"})
_WORKBOOK_ONLY = frozenset({"probes"})


def _sections(
    pen: PdfPen, frame: Frame, facts: Facts, prints: PhotoPrints
) -> Iterator[tuple[str, Section]]:
    """Tables in the order they are asked for, ties with their sketches, care, the appendix."""
    width = column_mm(frame)
    for table in facts.tables:
        if table.name in _ON_THE_COVER | _WORKBOOK_ONLY:
            continue
        note = not_printed(facts.job, prints) if table.name == "photos" else table.note
        yield table.title, record_section(pen, replace(table, note=note), width)
        if table.name == "ties":
            for sketches in sketch_section(facts.job, width):
                yield "tie sketches", sketches
    yield CARE_TITLE, words_section(pen, CARE_TITLE, CARE, width)
    yield "Cautions", words_section(pen, "Cautions", SAFETY, width)
    yield from _appendix(pen, facts, width)


def _appendix(pen: PdfPen, facts: Facts, width: float) -> Iterator[tuple[str, Section]]:
    """What came after the work, its tables that say anything."""
    words = "What was seen, tested and done once the work was finished."
    if not has_any(facts.after_rain):
        words = "Nothing was written down after the work: no rain, no test, no repair."
    yield AFTER_RAIN_TITLE, words_section(pen, AFTER_RAIN_TITLE, (words,), width)
    for table in facts.after_rain:
        if table.rows:
            yield table.title, record_section(pen, table, width)
        if table.name == "cleared":
            yield from _rain_section(facts, width)


def _rain_section(facts: Facts, width: float) -> Iterator[tuple[str, Section]]:
    """The drawing of how plots cleared, where somebody looked after a rain."""
    drawing = rain_drawing(facts.state, width)
    if drawing is not None:
        piece = Piece(drawing.height_mm, partial(_paint_drawing, drawing=drawing))
        yield "drawn", section(width, "Observed against estimated, drawn", [piece])


def _paint_drawing(pen: PdfPen, left: float, top: float, *, drawing: Drawing) -> None:
    draw(pen, drawing, left, top)
