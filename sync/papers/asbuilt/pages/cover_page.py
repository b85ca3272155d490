"""First sheet of the record: whose it is, its limits, its state, where to find the rest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from models.counted import CountedNoun
from sync.papers.asbuilt.pages.page_types import Frame, Page
from sync.papers.asbuilt.plans.key_plan import draw_job_key
from sync.papers.asbuilt.plans.paper_sizes import MARGIN_MM
from sync.papers.asbuilt.plans.plan_sets import PlanSet
from sync.papers.asbuilt.records.flags import OpenCount
from sync.papers.asbuilt.records.heading import PLACES_ARE, STATEMENT, UNSOUND
from sync.papers.asbuilt.records.record_sections import record_pieces
from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import fit_text, wrap
from sync.papers.tables.record_table import Record
from sync.papers.wording.safe_text import single_line

MOST_SHEETS = 18
"""Sheets listed one by one before those in the middle are run together."""
MOST_LINES = 2
GAP_MM = 8.0


@dataclass(frozen=True, slots=True)
class Cover:
    """Contents of the first sheet beside the heading."""

    standing: OpenCount
    tables: tuple[Record, ...]
    sets: Sequence[PlanSet]
    files: tuple[tuple[str, str], ...]


def paint_cover(pen: PdfPen, frame: Frame, cover: Cover, names: Sequence[str]) -> None:
    """Heading and statement on the left, key plan and list of sheets on the right."""
    top = _title(pen, frame)
    left_mm = (frame.sheet.inside - GAP_MM) * 0.52
    right = MARGIN_MM + left_mm + GAP_MM
    right_mm = frame.sheet.inside - left_mm - GAP_MM
    end = _facts(pen, frame, top, left_mm)
    end = _statement(pen, frame, cover, end + 2.5, left_mm)
    for table in cover.tables:
        end = _table(pen, frame, table, end + 2.5, left_mm)
    end = _key(pen, frame, cover, len(names), (right, top), right_mm)
    end = _list_of_sheets(pen, frame, names, (right, end), right_mm)
    _files(pen, frame, cover, (right, end), right_mm)


def _title(pen: PdfPen, frame: Frame) -> float:
    head, left, right = frame.head, MARGIN_MM, frame.sheet.width - MARGIN_MM
    word = "As built"
    pen.write(right, MARGIN_MM + 7.0, word, 20, bold=True, align=1)
    room = frame.sheet.inside - pen.measure(word, 20, True) - 6
    pen.write(
        left, MARGIN_MM + 7.0, fit_text(pen, single_line(head.job), room, 20, True), 20, bold=True
    )
    pen.write(left, MARGIN_MM + 13.0, fit_text(pen, single_line(head.site), room, 10.5), 10.5)
    pen.write(right, MARGIN_MM + 13.0, f"on {frame.sheet.name}", 9, align=1)
    pen.rule(left, MARGIN_MM + 15.6, right, MARGIN_MM + 15.6, 0.8)
    return MARGIN_MM + 19.0


def _facts(pen: PdfPen, frame: Frame, top: float, width: float) -> float:
    head = frame.head
    facts = (
        ("Owner", head.owner or "not written down"),
        ("Contractor", head.contractor or "not written down"),
        ("Work done", head.worked),
        ("Heights from", head.datum),
        ("Coordinates", head.plane),
        ("Figures in", head.units),
        ("Made from", f"{CountedNoun(head.entries):entry|entries}, check code {head.code}"),
    )
    for name, value in facts:
        pen.write(MARGIN_MM, top + 2.9, name, frame.pt, bold=True)
        for line in wrap(pen, single_line(value), width - 25, frame.pt):
            pen.write(MARGIN_MM + 25, top + 2.9, line, frame.pt)
            top += frame.line_mm - 0.2
        top += 0.5
    return top


def _statement(pen: PdfPen, frame: Frame, cover: Cover, top: float, width: float) -> float:
    """What it is not, in a box; then how it stands, as plainly."""
    start = top
    top += 1.4
    standing = cover.standing.words
    if cover.standing.stops or cover.standing.fixes:
        standing += " They are listed first among the tables."
    if not frame.head.days_worked:
        standing = f"NOTHING HAS BEEN CUT OR LAID YET: this is the plan alone. {standing}"
    if not frame.head.is_sound:
        standing = f"{UNSOUND} {standing}"
    for text, bold in ((STATEMENT, False), (PLACES_ARE, False), (standing, True)):
        for line in wrap(pen, single_line(text), width - 6, frame.pt, bold):
            pen.write(MARGIN_MM + 3, top + 2.9, line, frame.pt, bold=bold)
            top += frame.line_mm - 0.2
        top += 1.1
    pen.frame(MARGIN_MM, start, width, top - start, 0.6)
    return top


def _table(pen: PdfPen, frame: Frame, table: Record, top: float, width: float) -> float:
    """A table that is small enough to stand here whole; it stands among the others too."""
    pieces = record_pieces(pen, table, width)
    end = top + 5.4 + sum(piece.height for piece in pieces)
    if end > frame.sheet.bottom:
        return top
    _subtitle(pen, table.title, MARGIN_MM, top, width)
    top += 5.4
    for piece in pieces:
        piece.paint(pen, MARGIN_MM, top)
        top += piece.height
    return top


def _subtitle(pen: PdfPen, words: str, left: float, top: float, width: float) -> None:
    pen.write(left, top + 3.4, words, 9.5, bold=True)
    pen.rule(left, top + 4.6, left + width, top + 4.6, 0.5)


def _key(
    pen: PdfPen, frame: Frame, cover: Cover, names: int, at: tuple[float, float], width: float
) -> float:
    left, top = at
    if not cover.sets:
        pen.write(left, top + 3.4, "No surface and no collector has a place yet.", frame.pt)
        return top + 6.0
    _subtitle(pen, "Key: which sheet shows what", left, top, width)
    below = 1.5 * frame.line_mm * (min(names, MOST_SHEETS) + 2) + 3.5 * len(cover.files) + 18.0
    high = max((frame.sheet.bottom - top) * 0.3, frame.sheet.bottom - top - below)
    drawn = draw_job_key(cover.sets, (width, high))
    draw(pen, drawn, left, top + 6.0)
    return top + 8.0 + drawn.height_mm


def _list_of_sheets(
    pen: PdfPen, frame: Frame, names: Sequence[str], at: tuple[float, float], width: float
) -> float:
    left, top = at
    _subtitle(pen, "Sheets", left, top, width)
    top += 6.0
    rows = int((frame.sheet.bottom - top) // (1.7 * frame.line_mm))
    for text in _shortened(list(names), min(max(rows, 3), MOST_SHEETS)):
        number, _, name = text.partition(" ")
        pen.write(left + 11, top + 2.9, number, frame.pt, align=1)
        lines = wrap(pen, name, width - 13, frame.pt)
        if len(lines) > MOST_LINES:
            rest = fit_text(pen, " ".join(lines[MOST_LINES - 1 :]), width - 13, frame.pt)
            lines[MOST_LINES - 1 :] = [rest]
        for line in lines:
            pen.write(left + 13, top + 2.9, line, frame.pt)
            top += frame.line_mm - 0.3
        top += 0.3
    return top + 1.5


def _shortened(names: list[str], rows: int) -> list[str]:
    """Numbered names; those in the middle are run together where there are too many."""
    if len(names) <= rows:
        return names
    kept = rows - 1
    first, last = kept - kept // 3, kept // 3
    begin, end = (names[place].partition(" ")[0] for place in (first, len(names) - last - 1))
    middle = f"{begin} plans, profiles, tables up to sheet {end.rpartition('-')[2]}"
    return [*names[:first], middle, *(names[-last:] if last else [])]


def page_lines(pages: Sequence[Page]) -> list[str]:
    """A line for each page, after its number; pages of one set stand in one line."""
    lines: list[str] = []
    for _, group in groupby(enumerate(pages, start=1), key=lambda one: one[1].set or one[0]):
        numbers = [number for number, _ in group]
        first, last = numbers[0], numbers[-1]
        sheets = f"{first}" if first == last else f"{first}-{last}"
        lines.append(f"{sheets} {single_line(pages[first - 1].name)}")
    return lines


def _files(pen: PdfPen, frame: Frame, cover: Cover, at: tuple[float, float], width: float) -> None:
    """Files that go with this one, where there is room."""
    left, top = at
    if not cover.files or top + 10.0 > frame.sheet.bottom:
        return
    _subtitle(pen, "Files that belong with this one", left, top, width)
    top += 6.0
    for name, about in cover.files:
        if top + frame.line_mm > frame.sheet.bottom:
            return
        pen.write(left, top + 2.9, name, 7.5, bold=True)
        wide = 30.0
        about_room = fit_text(pen, single_line(about), width - wide, 7.5)
        pen.write(left + wide, top + 2.9, about_room, 7.5, tone=Tone.PLANNED)
        top += 3.5
