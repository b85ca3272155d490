"""Table of level notes: the bytes of a file become rows under known columns."""

from __future__ import annotations

import csv
import unicodedata
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from io import StringIO

from models.counted import CountedNoun
from models.readers.level_notes.problems import NoteProblem, notes_error

MOST_BYTES = 1_000_000
DELIMITERS = (",", ";", "\t")

ALIASES: dict[str, tuple[str, ...]] = {
    "point": ("point", "pt", "station", "sta", "point name"),
    "BS": ("bs", "b.s.", "backsight", "back sight"),
    "IS": ("is", "i.s.", "intermediate", "intermediate sight"),
    "FS": ("fs", "f.s.", "foresight", "fore sight"),
    "elevation": ("elevation", "elev", "known elevation", "known", "rl", "reduced level", "level"),
    "distance": ("distance", "dist", "length"),
    "remarks": ("remarks", "remark", "notes", "note", "comment", "comments"),
}
REQUIRED = ("point", "BS", "FS")


@dataclass(frozen=True, slots=True)
class Form:
    """Columns of one sort of page: each by the words that may head it, and those needed."""

    aliases: Mapping[str, tuple[str, ...]]
    required: tuple[str, ...]

    @property
    def names(self) -> str:
        """The columns, parted by commas."""
        return ", ".join(self.aliases)

    def column(self, head: str) -> str:
        """Column that a head names, "" where it is none."""
        plain = " ".join(head.split()).casefold()
        return next((name for name, words in self.aliases.items() if plain in words), "")


RUN = Form(ALIASES, REQUIRED)


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of a page under the columns that are known, and what is wrong with its columns.

    ``missing`` are needed columns that the header lacks: no row is told for them.
    ``has_strange`` says that others stand beside the known ones: what a row lacks may be there.
    """

    rows: tuple[Row, ...]
    problems: tuple[NoteProblem, ...] = ()
    missing: frozenset[str] = frozenset()
    has_strange: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the table: its number in the file, and its cells by column."""

    number: int
    cells: dict[str, str]


def heads_of(data: str | bytes) -> list[str]:
    """Heads of a table's columns as they stand, blanks trimmed.

    Raises
    ------
    LevelNotesError
        If it is not text or too large.
    """
    lines = _split(_as_text(data))
    return [" ".join(cell.split()).casefold() for cell in lines[0][1]] if lines else []


def read_table(data: str | bytes, form: Form = RUN) -> Table:
    """Read the rows of a table of level notes; faults of its header are handed back with them.

    Raises
    ------
    LevelNotesError
        If it is not text, too large, empty, or none of its columns is one of level notes.
    """
    lines = _split(_as_text(data))
    if not lines:
        raise _file_fault("nothing", "a table with the columns " + form.names)
    (number, header), *body = lines
    columns, problems = _read_header(number, header, form)
    if problems and not any(columns):
        raise notes_error(problems)
    problems += [
        NoteProblem(
            number, "", " ".join(cells), f"{CountedNoun(len(columns)):cell|cells}, as in the header"
        )
        for number, cells in body
        if any(cell.strip() for cell in cells[len(columns) :])
    ]
    if not body:
        accepted = "give one row for each point under it"
        raise notes_error([*problems, NoteProblem(None, "the file", "a header alone", accepted)])
    rows = tuple(Row(number, _by_column(columns, cells)) for number, cells in body)
    missing = frozenset(form.required) - frozenset(columns)
    return Table(rows, tuple(problems), missing, "" in columns)


def _by_column(columns: list[str], cells: list[str]) -> dict[str, str]:
    """Cells of a row under the columns that are known, the first of two called alike."""
    found: dict[str, str] = {}
    for column, cell in zip(columns, cells, strict=False):
        if column:
            found.setdefault(column, cell.strip())
    return found


def _file_fault(read: str, accepted: str) -> Exception:
    """Make the error for a fault of the file as a whole."""
    return notes_error([NoteProblem(None, "the file", read, f"give {accepted}")])


def _as_text(data: str | bytes) -> str:
    """Decode the file and refuse what no spreadsheet saves as a table."""
    if len(data) > MOST_BYTES:
        raise _file_fault(f"{len(data)} bytes", "less than a megabyte: one run to a file")
    if isinstance(data, bytes):
        if data.startswith((b"\xff\xfe", b"\xfe\xff")):
            raise _file_fault("UTF-16 text", "the table saved as CSV UTF-8")
        try:
            data = data.decode("utf-8")
        except UnicodeDecodeError as error:
            found = data[error.start : error.start + 1]
            raise _file_fault(f"byte {found!r}", "the table saved as CSV UTF-8") from error
    text = data.removeprefix("\ufeff")
    for character in text:
        if character not in "\r\n\t" and unicodedata.category(character) in ("Cc", "Cs"):
            raise _file_fault(f"character {ord(character)}", "plain text: CSV, not a workbook")
    return text


def _split(text: str) -> list[tuple[int, list[str]]]:
    """Cut the text into rows of cells that are not all blank, with their line numbers."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = max(DELIMITERS, key=first.count)
    reader = csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[tuple[int, list[str]]] = []
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                rows.append((reader.line_num, cells))
    except csv.Error as error:
        fault = NoteProblem(reader.line_num, "", str(error), "close every quotation mark")
        raise notes_error([fault]) from error
    return rows


def _read_header(number: int, header: list[str], form: Form) -> tuple[list[str], list[NoteProblem]]:
    """Name the columns, "" for unknown ones, and tell what is unknown, doubled or missing."""
    while header and not header[-1].strip():
        header = header[:-1]
    columns = [form.column(cell) for cell in header]
    problems = [
        NoteProblem(number, "header", cell, f"the columns are: {form.names}")
        for cell, column in zip(header, columns, strict=True)
        if not column
    ]
    problems += [
        NoteProblem(number, "header", column, "give each column once")
        for column, times in Counter(columns).items()
        if column and times > 1
    ]
    problems += [
        NoteProblem(number, "header", ", ".join(header), f"a column {column} is needed")
        for column in form.required
        if column not in columns
    ]
    return columns, problems
