"""A small table saved as CSV: rows of cells under known columns."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import StringIO

from models.counted import CountedNoun
from models.readers.outlines.problems import FileProblem, decode_text, refuse_file, refuse_whole

MOST_BYTES = 5_000_000
_AS_CSV = "save the table as CSV UTF-8, not as a workbook"
MOST_ROWS = 50_000
_DELIMITERS = (",", ";", "\t")


@dataclass(frozen=True, slots=True)
class Table:
    """Rows with their line numbers; each cell stripped, under the name of its column.

    ``problems`` are faults of the header, and rows with more cells than it; a reader adds what
    it finds in the rows. Of columns that are needed the missing ones hold nothing, and are
    ``missing``: what a row lacks there is told already.
    """

    rows: tuple[tuple[int, dict[str, str]], ...]
    problems: tuple[FileProblem, ...] = ()
    missing: frozenset[str] = frozenset()


def read_table(
    data: str | bytes, form: str, columns: Mapping[str, Sequence[str]], needed: Sequence[str]
) -> Table:
    """Read a table whose header names the columns, by any of their names.

    Raises
    ------
    PlanFileError
        If it is not text, too large, empty, or none of its columns is a known one.
    """
    lines = _lines(_as_text(data, form), form)
    if not lines:
        refuse_whole(form, "nothing", f"a header with {', '.join(needed)} and rows under it")
    (first, header), *body = lines
    names, problems = _header(first, header, columns, needed)
    if problems and not any(names):
        refuse_file(form, problems)
    if not body:
        refuse_whole(form, "a header alone", "give one row for each point under it")
    if len(body) > MOST_ROWS:
        refuse_whole(form, f"{len(body)} rows", f"at most {MOST_ROWS} are read")
    problems += [
        FileProblem(
            f"row {number}",
            f"{CountedNoun(len(cells)):cell|cells}",
            f"{len(names)} are in the header",
        )
        for number, cells in body
        if any(cells[len(names) :])
    ]
    missing = frozenset(needed) - frozenset(names)
    blank = dict.fromkeys([*filter(None, names), *missing], "")
    rows = ((number, blank | _by_name(names, cells)) for number, cells in body)
    return Table(tuple(rows), tuple(problems), missing)


def _by_name(names: Sequence[str], cells: Sequence[str]) -> dict[str, str]:
    """Cells under the names of their columns, the first of two called alike."""
    found: dict[str, str] = {}
    for name, cell in zip(names, cells, strict=False):
        if name:
            found.setdefault(name, cell)
    return found


def _as_text(data: str | bytes, form: str) -> str:
    """The text of a file that is neither huge nor a workbook."""
    text = decode_text(data, form, MOST_BYTES, _AS_CSV)
    if "\0" in text:
        refuse_whole(form, "a zero character", _AS_CSV)
    return text


def _lines(text: str, form: str) -> list[tuple[int, list[str]]]:
    """Rows of cells that are not all blank, with their line numbers."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = max(_DELIMITERS, key=first.count)
    reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True)
    lines: list[tuple[int, list[str]]] = []
    try:
        for row in reader:
            cells = [cell.strip() for cell in row]
            if any(cells):
                lines.append((reader.line_num, cells))
    except csv.Error as error:
        place = f"row {reader.line_num}"
        refuse_file(form, [FileProblem(place, str(error), "close every quotation mark")])
    return lines


def _header(
    number: int,
    header: Sequence[str],
    columns: Mapping[str, Sequence[str]],
    needed: Sequence[str],
) -> tuple[list[str], list[FileProblem]]:
    """Names of the columns, "" for unknown ones; what is unknown, doubled or missing."""
    known = {alias: name for name, aliases in columns.items() for alias in aliases}
    words = [" ".join(cell.split()).casefold() for cell in header]
    while words and not words[-1]:
        words.pop()
    names = [known.get(word, "") for word in words]
    place = f"row {number}, header"
    every = f"the columns are {', '.join(columns)}"
    problems = [
        FileProblem(place, repr(word), every)
        for word, name in zip(words, names, strict=True)
        if not name
    ]
    problems += [
        FileProblem(place, f"the column {name} {names.count(name)} times", "give it once")
        for name in columns
        if names.count(name) > 1
    ]
    problems += [
        FileProblem(place, ", ".join(words), f"a column {name} is needed")
        for name in needed
        if name not in names
    ]
    return names, problems
