"""The record of a job as a workbook: a tab a table, numbers as numbers, text never a formula."""

from __future__ import annotations

import io
from typing import Any

from models.units.times import utc_moment
from sync.papers.asbuilt.records.facts import Facts
from sync.papers.day.xlsx_file import LONGEST_CELL, WIDEST
from sync.papers.tables.record_table import Record


def build_as_built_xlsx(facts: Facts) -> bytes:
    """Write the workbook; the same book gives the same bytes."""
    import xlsxwriter  # heavy: only when a workbook is asked for

    out = io.BytesIO()
    book = xlsxwriter.Workbook(
        out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    made = utc_moment(facts.head.last_at_ms // 1000 * 1000).replace(tzinfo=None)
    book.set_properties(
        {
            "title": f"As built, {facts.head.job_id}",
            "author": "crewapp",
            "comments": f"Record by the contractor, not a survey. Check code {facts.head.code}.",
            "created": made,
        }
    )
    styles = {
        "head": book.add_format({"bold": True, "bottom": 1}),
        "text": book.add_format({"text_wrap": True, "valign": "top"}),
        "struck": book.add_format({"text_wrap": True, "valign": "top", "font_strikeout": True}),
        "heavy": book.add_format({"text_wrap": True, "valign": "top", "bold": True}),
        "plain": None,
    }
    for table in facts.every_table:
        _write(book.add_worksheet(table.name), table, styles)
    book.close()
    return out.getvalue()


def _write(tab: Any, table: Record, styles: dict[str, Any]) -> None:
    tab.freeze_panes(1, 0)
    for at, field in enumerate(table.fields):
        tab.write_string(0, at, field.header, styles["head"])
        tab.set_column(at, at, _width(table, at))
    for place, row in enumerate(table.rows, start=1):
        mood = "struck" if row.is_struck else "heavy" if row.is_heavy else "text"
        for at, item in enumerate(row.items):
            if isinstance(item.value, str):
                tab.write_string(place, at, item.value[:LONGEST_CELL], styles[mood])
            elif item.value is not None:
                tab.write_number(place, at, item.value, styles[mood] if mood != "text" else None)
    tab.set_landscape()
    tab.fit_to_pages(1, 0)
    tab.repeat_rows(0)


def _width(table: Record, at: int) -> float:
    longest = max(
        [len(table.fields[at].header), *(len(str(row.items[at].value or "")) for row in table.rows)]
    )
    return min(longest + 2, WIDEST)
