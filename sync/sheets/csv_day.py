"""A day sheet as one CSV file: every fact in long form, a row a fact.

One file, since a day that travels as a dozen files loses some of them; long form, since
the sections have different columns and a reader then needs no rule for where one ends.
A row names its section, the row in it and the column; a number stands in ``number`` with
its ``unit``, words stand in ``text``. Numbers are never guarded, so that a negative one
stays a number; words are, so that a spreadsheet takes none for a formula.
"""

from __future__ import annotations

import csv
import io
from decimal import Decimal

from sync.sheets.cells import Cell, Table
from sync.sheets.day_facts import DaySheet
from sync.sheets.day_tables import day_tables

HEADER = ("section", "row", "column", "unit", "number", "text")
STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0", "|", "%", "\uff1d", "\uff0b", "\uff20")


def guarded(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe before what could be one.

    Examples
    --------
    >>> guarded("=1+1"), guarded(" -2"), guarded("plain")
    ("'=1+1", "' -2", 'plain')
    """
    return f"'{text}" if text.lstrip().startswith(STARTS_A_FORMULA) else text


def plain_number(value: int | float) -> str:
    """Write a number without an exponent, so that nothing reads it as words."""
    return f"{Decimal(repr(value)):f}"


def build_csv(day: DaySheet) -> bytes:
    """Write the file: UTF-8 with its mark, CRLF, quoted where needed."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADER)
    for table in day_tables(day):
        for place, row in enumerate(table.rows, start=1):
            for at, cell in enumerate(row):
                if cell not in (None, ""):
                    writer.writerow(_fact(table, place, at, cell))
    return b"\xef\xbb\xbf" + out.getvalue().encode()


def _fact(table: Table, place: int, at: int, cell: Cell) -> tuple[str, int, str, str, str, str]:
    column = table.columns[at]
    unit = column.unit or _unit_beside(table, place, column.name)
    if isinstance(cell, str):
        return table.name, place, column.name, "", "", guarded(cell)
    return table.name, place, column.name, unit, plain_number(cell or 0), ""


_AMOUNTS = frozenset({"today", "to_date", "left", "plan", "amount", "delivered", "used", "on_hand"})


def _unit_beside(table: Table, place: int, name: str) -> str:
    """Unit that a row states in its own column, for the amounts of that row."""
    names = [column.name for column in table.columns]
    if name not in _AMOUNTS or "unit" not in names:
        return ""
    return str(table.rows[place - 1][names.index("unit")])
