"""The take-off as files: PDF and workbook from one gathering of facts."""

from __future__ import annotations

from pathlib import Path

from models.queries.takeoff.job_takeoff import JobTakeoff
from models.state.job_state import JobState
from sync.papers.day.xlsx_file import build_workbook
from sync.papers.paper_files import write_files_atomically
from sync.papers.tables.cells import Cell, Table, table
from sync.papers.takeoff.facts import TakeoffRow, TakeoffSheet, gather_takeoff
from sync.papers.takeoff.pdf_file import build_takeoff_pdf
from sync.papers.wording.cautions import TAKEOFF, in_both
from sync.papers.wording.safe_text import slug


def write_takeoff_sheets(
    state: JobState, takeoff: JobTakeoff, folder: Path, *, tried: str = ""
) -> list[Path]:
    """Write the take-off into a folder, made if need be, and return the files.

    A trial has its own name, so that it never stands where the plan's take-off stood.
    """
    sheet = gather_takeoff(state, takeoff, tried)
    stem = f"{slug(sheet.job_id)}-take-off{f'-with-{slug(tried)}' if tried else ''}"
    made = {
        folder / f"{stem}.pdf": build_takeoff_pdf(sheet),
        folder / f"{stem}.xlsx": build_takeoff_xlsx(sheet),
    }
    return write_files_atomically(made)


def build_takeoff_xlsx(sheet: TakeoffSheet) -> bytes:
    """Write the workbook; numbers are numbers with their unit beside them."""
    said = {
        "title": f"Take-off, {sheet.job}",
        "subject": sheet.job_id,
        "comments": f"{sheet.tried and f'A trial: {sheet.tried}. '}Code of the book {sheet.code}.",
    }
    return build_workbook(takeoff_tables(sheet), said, sheet.last_at_ms)


def takeoff_tables(sheet: TakeoffSheet) -> list[Table]:
    """Tabs of the workbook: the whole job, its parts, the estimate, the notes."""
    columns = ["what", "amount", "unit", "worked_out_from"]
    parts: list[list[Cell]] = [
        [part.title, *_cells(line)] for part in sheet.parts for line in part.lines
    ]
    made = [
        table("whole_job", [*columns], [_cells(line) for line in sheet.whole.lines]),
        table("parts", ["part", *columns], parts),
    ]
    if sheet.money.lines:
        money: list[list[Cell]] = [
            [line.item, line.number, line.arithmetic] for line in sheet.money.lines
        ]
        made.append(table("estimate", ["what", "money", "worked_out_from"], money))
    said: list[list[Cell]] = [["not in it", text] for text in sheet.missing]
    said += [["reckoned with", text] for text in sheet.basis]
    said += [["caution", text] for text in in_both(TAKEOFF)]
    said += [["a trial, not the plan", sheet.tried]] if sheet.tried else []
    return [*made, table("said", ["about", "words"], said)]


def _cells(line: TakeoffRow) -> list[Cell]:
    return [line.item, line.number, line.unit, line.arithmetic]
