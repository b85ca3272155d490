"""The day sheet in its three formats: bytes, or files in a folder."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum
from pathlib import Path

from models.checks.flag_board import FlagBoard
from models.state.job_state import JobState
from sync.papers.day.csv_file import build_csv
from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.day.pdf_file import build_pdf
from sync.papers.day.tables import day_tables
from sync.papers.day.xlsx_file import build_xlsx
from sync.papers.paper_files import write_files_atomically
from sync.papers.tables.cells import Table
from sync.papers.wording.safe_text import slug


class SheetFormat(StrEnum):
    """Formats that a day sheet can be written in."""

    PDF = "pdf"
    XLSX = "xlsx"
    CSV = "csv"


_OF_TABLES: dict[SheetFormat, Callable[[DaySheet, Sequence[Table]], bytes]] = {
    SheetFormat.XLSX: build_xlsx,
    SheetFormat.CSV: build_csv,
}


def _built(sheet: DaySheet, formats: Sequence[SheetFormat]) -> Iterator[bytes]:
    """Make formats of one sheet; its tables are made once for those that hold them."""
    tables = day_tables(sheet) if set(formats) & _OF_TABLES.keys() else ()
    for format in formats:
        yield build_pdf(sheet) if format is SheetFormat.PDF else _OF_TABLES[format](sheet, tables)


def build_day_sheet(
    state: JobState, board: FlagBoard, day: str, *, format: SheetFormat = SheetFormat.PDF
) -> bytes:
    """Make one format of the sheet of a day; the same book gives the same bytes.

    Raises
    ------
    SheetDayError
        If ``day`` is not a date written YYYY-MM-DD.
    """
    return next(_built(gather_day(state, board, day), (SheetFormat(format),)))


def write_day_sheets(
    state: JobState,
    board: FlagBoard,
    day: str,
    folder: Path,
    formats: tuple[SheetFormat, ...] = tuple(SheetFormat),
) -> list[Path]:
    """Write the sheet of a day into a folder, made if need be, and return the files.

    A file is named for the job, the day and the revision, by letters and figures
    alone; all are put in place whole or none, so that a reader never meets half of one.

    Raises
    ------
    SheetDayError
        If ``day`` is not a date written YYYY-MM-DD.
    OSError
        If the storage refuses; nothing is left of it.
    """
    sheet = gather_day(state, board, day)
    names = [folder / f"{file_stem(sheet)}.{format.value}" for format in formats]
    return write_files_atomically(dict(zip(names, _built(sheet, formats), strict=True)))


def file_stem(sheet: DaySheet) -> str:
    """Name of a sheet's files: job, day, and the revision from the second on."""
    head = sheet.head
    revision = f"-r{head.revision}" if head.revision > 1 else ""
    return f"{slug(head.job_id)}-{head.day}-day-sheet{revision}"
