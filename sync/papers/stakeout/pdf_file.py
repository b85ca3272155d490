"""Stake-out sheet as PDF: plan, passes with offsets, the collector's cut sheet."""

from __future__ import annotations

from models.counted import CountedNoun
from sync.papers.asbuilt.records.record_sections import record_section
from sync.papers.drawing.plan_strip import draw_plan
from sync.papers.pdf.column import ColumnPaper, build_column_pdf
from sync.papers.pdf.drawing_ops import draw
from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import paragraph, section
from sync.papers.stakeout.facts import CAUTIONS, StakedSurface, StakeoutSheet
from sync.papers.stakeout.plan import LEGEND

PLAN_MM = 74.0
_FOOT = "From the plan, not from a survey."


def build_stakeout_pdf(sheet: StakeoutSheet) -> bytes:
    """Print the sheet; the same book gives the same bytes."""
    paper = ColumnPaper(
        "Stake-out", sheet.job, sheet.place, _FOOT, sheet.code, sheet.last_at_ms, sheet.is_us
    )
    return build_column_pdf(paper, lambda pen, width: _sections(pen, sheet, width))


def _sections(pen: PdfPen, sheet: StakeoutSheet, width: float) -> list[Section]:
    cautions = [piece for text in CAUTIONS for piece in paragraph(pen, width, text)]
    made = [section(width, "Before anything is cut", cautions)]
    for surface in sheet.surfaces:
        made.append(_plan(pen, surface, width))
        made += [record_section(pen, table, width) for table in surface.tables]
    return made + [record_section(pen, table, width) for table in sheet.cuts]


def _plan(pen: PdfPen, surface: StakedSurface, width: float) -> Section:
    """The plan of a surface with what is cut on it, and where the tapes lie."""
    told = [piece for text in surface.baselines for piece in paragraph(pen, width, text)]
    if not told:
        return section(width, surface.name, paragraph(pen, width, "No line is planned here."))
    pieces = list(told)
    if surface.plan is not None and surface.plan.points():
        drawing = draw_plan(surface.plan, width, PLAN_MM)

        def paint(pen: PdfPen, left: float, top: float) -> None:
            draw(pen, drawing, left, top)

        pieces = [
            Piece(PLAN_MM + 1.5, paint, keep_with_next=True),
            *paragraph(pen, width, LEGEND),
            *told,
        ]
    return section(
        width, f"{surface.name}: {CountedNoun(surface.n_left):pass|passes} to drive", pieces
    )
