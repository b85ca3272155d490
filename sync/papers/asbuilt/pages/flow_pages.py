"""Sections that flow in columns over as many pages as they need."""

from __future__ import annotations

from functools import partial

from sync.papers.asbuilt.pages.page_types import HEAD_MM, Frame, Page
from sync.papers.asbuilt.plans.paper_sizes import MARGIN_MM
from sync.papers.pdf.flow import GUTTER_MM, PlacedPiece, Section, balance_columns, fill_columns
from sync.papers.pdf.pen import PdfPen

MOST_PAGES = 4000


def column_mm(frame: Frame) -> float:
    """Width of one column of tables."""
    columns = frame.sheet.columns
    return (frame.sheet.inside - GUTTER_MM * (columns - 1)) / columns


def flow_pages(frame: Frame, sections: list[tuple[str, Section]]) -> list[Page]:
    """Pages of named sections, the columns of the last one even."""
    parts = [section for _, section in sections]
    room, columns = frame.sheet.tall - HEAD_MM, frame.sheet.columns
    placed = fill_columns(parts, [room] * MOST_PAGES, columns)
    assert placed is not None, "a section is taller than a column"
    count = placed[-1].page + 1 if placed else 0
    placed = balance_columns(parts, [room] * count, columns) or placed
    names = _names(_begun(sections, placed, count))
    return [
        Page(
            name=name,
            paint=partial(_paint, frame=frame, placed=[one for one in placed if one.page == page]),
            set=name,
        )
        for page, name in enumerate(names)
    ]


def _names(begun: list[list[str]]) -> list[str]:
    """Names of pages: what begins on each, or what goes on there from the page before."""
    names, going_on = [], ""
    for titles in begun:
        names.append("; ".join(titles) or f"{going_on}, continued")
        going_on = titles[-1] if titles else going_on
    return names


def _begun(
    sections: list[tuple[str, Section]], placed: list[PlacedPiece], count: int
) -> list[list[str]]:
    """Names of the sections that begin on each page."""
    names = {id(section.heading): name for name, section in sections}
    begun: list[list[str]] = [[] for _ in range(count)]
    for one in placed:
        if id(one.piece) in names:
            begun[one.page].append(names[id(one.piece)])
    return begun


def _paint(pen: PdfPen, *, frame: Frame, placed: list[PlacedPiece]) -> None:
    frame.running_head(pen, "As built: tables")
    width = column_mm(frame)
    for one in placed:
        left = MARGIN_MM + one.column * (width + GUTTER_MM)
        one.piece.paint(pen, left, MARGIN_MM + HEAD_MM + one.depth)
