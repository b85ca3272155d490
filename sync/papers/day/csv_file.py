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
from collections.abc import Iterator, Sequence
from decimal import Decimal

from sync.papers.day.facts.day import DaySheet
from sync.papers.day.tables import day_tables
from sync.papers.tables.cells import Cell, Column, Table

HEADER = ("section", "row", "column", "unit", "number", "text")
STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0", "|", "%", "\uff1d", "\uff0b", "\uff20")


def guard_formula(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe before what could be one.

    Examples
    --------
    >>> guard_formula("=1+1"), guard_formula(" -2"), guard_formula("plain")
    ("'=1+1", "' -2", 'plain')
    """
    return f"'{text}" if text.lstrip().startswith(STARTS_A_FORMULA) else text


def plain_number(value: int | float) -> str:
    """Write a number without an exponent, so that nothing reads it as words."""
    plain = repr(value)
    if "e" not in plain and "n" not in plain:
        return plain
    return f"{Decimal(repr(value)):f}"


def build_csv(day: DaySheet, tables: Sequence[Table] = ()) -> bytes:
    """Write the file: UTF-8 with its mark, CRLF, quoted where needed.

    ``tables`` are those of the day, where they are made already.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADER)
    for table in tables or day_tables(day):
        columns = [(column.name, _unit_of(table, column)) for column in table.columns]
        for place, row in enumerate(table.rows, start=1):
            writer.writerows(_facts(table.name, columns, place, row))
    return b"\xef\xbb\xbf" + out.getvalue().encode()


def _facts(
    section: str, columns: Sequence[tuple[str, str | int]], place: int, row: Sequence[Cell]
) -> Iterator[tuple[str, int, str, str, str, str]]:
    """A row of the file for each cell that says something."""
    for (name, unit), cell in zip(columns, row, strict=True):
        if cell is None or cell == "":
            continue
        if isinstance(cell, str):
            yield section, place, name, "", "", guard_formula(cell)
        else:
            own = unit if isinstance(unit, str) else str(row[unit])
            yield section, place, name, own, plain_number(cell or 0), ""


_AMOUNTS = frozenset({"today", "to_date", "left", "over", "plan", "amount"})
_AMOUNTS |= {"delivered", "used", "on_hand"}


def _unit_of(table: Table, column: Column) -> str | int:
    """A column's unit, or the place in the row where the row states it itself."""
    names = [one.name for one in table.columns]
    if column.unit or column.name not in _AMOUNTS or "unit" not in names:
        return column.unit
    return names.index("unit")
