"""A day sheet as a workbook: one tab a section, numbers as numbers, text never a formula."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import Any

from models.units.times import utc_moment
from sync.papers.day.facts.day import DaySheet
from sync.papers.day.tables import day_tables
from sync.papers.tables.cells import Cell, Table

WIDEST = 60
LONGEST_CELL = 32_767
"""Characters that one cell of the format can hold."""


def build_xlsx(day: DaySheet, tables: Sequence[Table] = ()) -> bytes:
    """Write the workbook; the same day gives the same bytes.

    ``tables`` are those of the day, where they are made already.
    """
    head = day.head
    said = {
        "title": f"Day sheet {head.day}",
        "subject": head.job_id,
        "comments": f"Revision {head.revision}. Check code {head.code}.",
    }
    return build_workbook(tables or day_tables(day), said, head.last_at_ms)


def build_workbook(tables: Iterable[Table], said: dict[str, str], made_ms: int) -> bytes:
    """Write a workbook, a tab a table; ``said`` is what the file says about itself."""
    import xlsxwriter  # heavy: only when a workbook is asked for

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    made = utc_moment(made_ms // 1000 * 1000).replace(tzinfo=None)
    book.set_properties({**said, "author": "crewapp", "created": made})
    bold = book.add_format({"bold": True, "bottom": 1})
    wrapped = book.add_format({"text_wrap": True, "valign": "top"})
    for table in tables:
        _write(book.add_worksheet(table.name), table, bold, wrapped)
    book.close()
    return out.getvalue()


def _write(tab: Any, table: Table, bold: Any, wrapped: Any) -> None:
    tab.freeze_panes(1, 0)
    for at, column in enumerate(table.columns):
        tab.write_string(0, at, column.header, bold)
        tab.set_column(at, at, _width(table, at))
    for place, row in enumerate(table.rows, start=1):
        for at, cell in enumerate(row):
            if isinstance(cell, str):
                tab.write_string(place, at, cell[:LONGEST_CELL], wrapped)
            elif cell is not None:
                tab.write_number(place, at, cell)
    tab.set_landscape()
    tab.fit_to_pages(1, 0)
    tab.repeat_rows(0)


def _width(table: Table, at: int) -> float:
    cells: list[Cell] = [row[at] for row in table.rows]
    longest = max([len(table.columns[at].header), *(len(str(cell or "")) for cell in cells)])
    return min(longest + 2, WIDEST)
