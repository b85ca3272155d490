"""Stake-out sheet as files: PDF, workbook and a CSV a table, from one gathering of facts."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from pathlib import Path

from models.state.job_state import JobState
from sync.papers.day.csv_file import guard_formula
from sync.papers.day.xlsx_file import build_workbook
from sync.papers.paper_files import write_files_atomically
from sync.papers.stakeout.facts import CAUTIONS, PadQuestion, StakeoutSheet, gather_stakeout
from sync.papers.stakeout.pdf_file import build_stakeout_pdf
from sync.papers.tables.cells import Cell, Column, Table
from sync.papers.tables.record_table import Record
from sync.papers.wording.safe_text import slug


def write_stakeout_sheets(state: JobState, asked: PadQuestion, folder: Path) -> list[Path]:
    """Write the sheet into a folder, made if need be, and return the files."""
    sheet = gather_stakeout(state, asked)
    surface = f"-{slug(asked.surface_id)}" if asked.surface_id else ""
    stem = f"{slug(sheet.job_id)}{surface}-stake-out"
    made = {
        folder / f"{stem}.pdf": build_stakeout_pdf(sheet),
        folder / f"{stem}.xlsx": build_stakeout_xlsx(sheet),
        folder / f"{stem}.csv": build_stakeout_csv(sheet),
    }
    return write_files_atomically(made)


_CAUTIONS = "cautions"
_TAB_LETTERS = 31


def build_stakeout_xlsx(sheet: StakeoutSheet) -> bytes:
    """Write the workbook: numbers are numbers, their unit in the head; cautions have a tab."""
    about = {
        "title": f"Stake-out, {sheet.job}",
        "subject": sheet.job_id,
        "comments": f"Code of the book {sheet.code}.",
    }
    said = Table(_CAUTIONS, (Column("caution"),), tuple((text,) for text in CAUTIONS))
    tabs = [*(_tab(name, table) for name, table in _told_apart(sheet.tables)), said]
    return build_workbook(tabs, about, sheet.last_at_ms)


def build_stakeout_csv(sheet: StakeoutSheet) -> bytes:
    """Write every line and station as a row of one file, the table's name first.

    What a spreadsheet could take for a formula has an apostrophe before it.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    for name, table in _told_apart(sheet.tables):
        writer.writerow(["table", *(field.header for field in table.fields)])
        for row in table.rows:
            writer.writerow([guard_formula(name), *(_plain(item.value) for item in row.items)])
    return out.getvalue().encode()


def _plain(value: Cell) -> str | int | float:
    if isinstance(value, str):
        return guard_formula(value)
    return "" if value is None else value


def _told_apart(tables: Sequence[Record]) -> Iterator[tuple[str, Record]]:
    """Tables with names that no two of them share, in the letters that a tab has."""
    taken = {_CAUTIONS}
    for number, table in enumerate(tables, start=1):
        name = table.name[:_TAB_LETTERS]
        if name.casefold() in taken:
            name = f"{name[: _TAB_LETTERS - 5]}-{number}"
        taken.add(name.casefold())
        yield name, table


def _tab(name: str, table: Record) -> Table:
    return Table(
        name,
        tuple(Column(field.name, field.unit) for field in table.fields),
        tuple(tuple(item.value for item in row.items) for row in table.rows),
    )
