"""Typed-up field notes: a CSV to writings, every bad cell reported at once."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from crewapp.imports.notes.after_cells import settle_times
from crewapp.imports.notes.cells import TYPED_PIECES, CellError, RowKind, iso_day
from crewapp.imports.notes.known_names import KnownNames
from crewapp.imports.notes.rows import ALWAYS, BY_WORD, COLUMNS
from crewapp.imports.problems import PaperError, Problem
from crewapp.job.open_job import NewEntry, OpenJob
from models.counted import CountedNoun
from models.entries.bodies.passes import PassCut
from models.entries.body import Body
from models.entries.envelope import EntryRefusedError, build_body
from models.errors import UnreadableError
from models.queries.layout.drive_pieces import with_pieces
from models.state.job_state import JobState
from models.units.job_units import Figures
from models.units.station import StationRange

MOST_ROWS = 100_000


@dataclass(slots=True)
class _Page:
    """One reading of one file: what was made of it so far and what is wrong.

    ``columns`` are those of the header that are known; where ``has_strange`` others stand
    beside them, a figure that a row lacks may stand in one of those.
    """

    job: OpenJob
    figures: Figures
    known: KnownNames
    columns: frozenset[str] = frozenset()
    has_strange: bool = False
    problems: list[Problem] = field(default_factory=list)
    writings: list[NewEntry] = field(default_factory=list)

    def passes(self) -> Iterator[PassCut]:
        """Yield the passes of the rows before, which will stand before the next."""
        for writing in self.writings:
            if isinstance(writing.body, PassCut):
                yield writing.body

    def refuse(self, row: int, column: str, read: str, why: str, forms: str) -> None:
        self.problems.append(Problem(row, column, read, why, forms))


def read_notes(path: Path, text: str, job: OpenJob, *, again: bool = False) -> list[NewEntry]:
    """Read every row, or report every column and every cell that can't be read.

    Under a header with faults the rows are read by the columns that are known.

    A page whose every row stands in the book already is taken for the same page
    handed in twice, unless ``again`` says that it all happened once more.

    Raises
    ------
    PaperError
        If anything is wrong; it lists all of it, and nothing is written.
    """
    page = _Page(job, job.figures, KnownNames.from_state(job.state))
    for number, row in _rows(text, page):
        _read_row(number, row, page)
    if not page.writings and not page.problems:
        page.refuse(0, "", path.name, "holds no rows", "a header row and one row an entry")
    if not page.problems and not again and _is_written_already(page.writings, job.state):
        forms = "a page with a row that is new, or the same one with --again"
        page.refuse(0, "", path.name, "is in this book already, every row of it", forms)
    if page.problems:
        raise PaperError(path, page.problems)
    return page.writings


def _is_written_already(writings: list[NewEntry], state: JobState) -> bool:
    """Whether every row stands on its day, as often as the page has it."""
    days = {str(writing.day) for writing in writings}
    standing = Counter(
        (entry.day, _as_typed(entry.body))
        for day in days
        for entry in state.days.get(day, ())
        if entry.body is not None and not state.is_struck(entry.id)
    )
    return Counter((str(one.day), _as_typed(one.body)) for one in writings) <= standing


def _as_typed(body: Body) -> Body:
    """A body as it was typed, without what was worked out from the plan."""
    if isinstance(body, PassCut):
        measured = tuple(piece for piece in body.pieces if piece.typed)
        return body.model_copy(update={"pieces": measured, "drive_number": 0, "is_along": None})
    return body


_DELIMITERS = ",;\t"
"""What spreadsheets part cells by: where a comma is the decimal sign, a semicolon."""


def _rows(text: str, page: _Page) -> Iterator[tuple[int, dict[str, str]]]:
    first = next((line for line in text.splitlines() if line.strip()), "")
    parted_by = max(_DELIMITERS, key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=parted_by, strict=True)
    header: list[str] | None = None
    try:
        for cells in reader:
            if not any(cell.strip() for cell in cells):
                continue
            if header is None:
                header = _header(cells, page)
                if not page.columns:
                    return
                continue
            if reader.line_num > MOST_ROWS:
                page.refuse(reader.line_num, "", "", "is a row too many", f"{MOST_ROWS:,} rows")
                return
            if len(cells) > len(header):
                forms = f"{CountedNoun(len(header)):cell|cells}, as in the header"
                page.refuse(reader.line_num, "", cells[len(header)], "is a cell too many", forms)
                continue
            yield reader.line_num, _told_by_column(header, cells)
    except csv.Error as fault:
        page.refuse(reader.line_num, "", "", f"is not CSV ({fault})", "cells parted by commas")


def _told_by_column(header: list[str], cells: list[str]) -> dict[str, str]:
    """Cells of a row under the columns that are known, the first of two that are called alike."""
    found: dict[str, str] = {}
    for name, cell in zip(header, cells, strict=False):
        if name in COLUMNS:
            found.setdefault(name, cell.strip())
    return found


def _header(cells: list[str], page: _Page) -> list[str]:
    header = [" ".join(cell.strip().lower().split()) for cell in cells]
    page.columns = frozenset(header) & frozenset(COLUMNS)
    page.has_strange = not set(header) <= set(COLUMNS)
    for place, name in enumerate(header):
        if name not in COLUMNS:
            near = ", ".join(get_close_matches(name, COLUMNS, n=1)) or "no column"
            forms = f"{near}, or another that `crewapp columns` lists"
            page.refuse(1, cells[place], name, "is not a column of field notes", forms)
        elif name in header[:place]:
            page.refuse(1, name, name, "stands twice in the header", "each column once")
    for name in ALWAYS:
        if name not in header:
            page.refuse(1, name, ", ".join(header), f"has no column {name}", f"a column {name}")
    return header


def _read_row(number: int, row: dict[str, str], page: _Page) -> None:
    before = len(page.problems)
    day = _read_day(number, row, page) if "day" in page.columns else ""
    if "entry" not in page.columns:
        return
    word = " ".join(row.get("entry", "").lower().replace("_", " ").split())
    kind = BY_WORD.get(word)
    if kind is None:
        page.refuse(number, "entry", row.get("entry", ""), "is no kind of row", ", ".join(BY_WORD))
        return
    fields = page.known.with_laser(kind.kind, _low_to_high(_read_cells(number, row, kind, page)))
    _settle(number, row, fields, day, page)
    if len(page.problems) > before or page.has_strange:
        for column, read, why, forms in page.known.unknown_names(kind.kind, fields):
            page.refuse(number, column, read, why, forms)
        page.known.add_names(kind.kind, fields)
        return
    for column, read, why, forms in page.known.missing_fault(kind.kind, fields, page.figures):
        page.refuse(number, column, read, why, forms)
    body = _build(number, row, kind, fields, page)
    if body is None:
        return
    page.known.add_names(kind.kind, fields)
    if isinstance(body, PassCut):
        page.known.lengths.cuts[body.pass_id] = body
    page.writings.append(NewEntry(body, day=day))


def _build(
    number: int, row: dict[str, str], kind: RowKind, fields: dict[str, Any], page: _Page
) -> Body | None:
    """The body of a row, a pass with its pieces; or None where a field was refused."""
    typed = fields.pop(TYPED_PIECES, {})
    try:
        body = build_body(kind.kind, fields)
    except EntryRefusedError as fault:
        facts = fault.context
        column = _column_of(str(facts["field"]), row, kind, page.figures)
        read = row.get(column, "")
        page.refuse(number, column, read, str(facts["why"]), str(facts["forms"]))
        return None
    if isinstance(body, PassCut):
        return with_pieces(page.job.state, body, typed, earlier=page.passes())
    return body


def _settle(
    number: int, row: dict[str, str], fields: dict[str, Any], day: str, page: _Page
) -> None:
    """Put instants in place of times on the wall, in the job's zone."""
    zone = page.job.clock.now().zone
    for name, at, column in list(settle_times(fields, day, zone)) if day else ():
        if isinstance(at, CellError):
            page.refuse(number, column, row[column], str(at), at.forms)
        else:
            fields[name] = at


def _low_to_high(fields: dict[str, Any]) -> dict[str, Any]:
    """A stretch is kept from its lower station, from whichever end it was told."""
    if "from_nm" in fields and "to_nm" in fields:
        stretch = StationRange.between(fields["from_nm"], fields["to_nm"])
        return {**fields, "from_nm": stretch.low_nm, "to_nm": stretch.high_nm}
    return fields


def _column_of(field: str, row: dict[str, str], kind: RowKind, figures: Figures) -> str:
    """Column that a refused field was read from."""
    name = field.split(".")[0]
    for cell in kind.cells:
        if row.get(cell.column) and name in cell.read(row[cell.column], figures):
            return cell.column
    return name


def _read_day(number: int, row: dict[str, str], page: _Page) -> str:
    try:
        day = iso_day(row.get("day", ""))
    except CellError as fault:
        page.refuse(number, "day", row.get("day", ""), str(fault), fault.forms)
        return ""
    if page.job.state.is_closed(day):
        page.refuse(number, "day", day, "stands closed", "a day that is open, or reopened first")
    return day


def _read_cells(number: int, row: dict[str, str], kind: RowKind, page: _Page) -> dict[str, Any]:
    fields: dict[str, Any] = dict(kind.fixed)
    for cell in kind.cells:
        typed = row.get(cell.column, "")
        if not typed:
            if cell.needed and (cell.column in page.columns or not page.has_strange):
                why = f"is empty, and a {kind.word} row needs it"
                page.refuse(number, cell.column, "", why, f"the {cell.column} of the {kind.word}")
            continue
        try:
            fields.update(cell.read(typed, page.figures))
        except CellError as fault:
            page.refuse(number, cell.column, typed, str(fault), fault.forms)
        except UnreadableError as fault:
            facts = fault.context
            why = f"can't be read: {facts['why']}, at character {facts['place']}"
            page.refuse(number, cell.column, typed, why, str(facts["forms"]))
    used = {cell.column for cell in kind.cells} | set(ALWAYS)
    for column, typed in row.items():
        if typed and column not in used:
            forms = "an empty cell here, or " + ", ".join(cell.column for cell in kind.cells)
            page.refuse(number, column, typed, f"is not used by a {kind.word} row", forms)
    return fields
