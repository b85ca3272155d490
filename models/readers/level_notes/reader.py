"""Reader of level notes: rows of text become sights, with every fault reported at once."""

from __future__ import annotations

from dataclasses import dataclass, replace

from models.errors import UnreadableError
from models.readers.level_notes.problems import NoteProblem, notes_error
from models.readers.level_notes.table import Row, Table, read_table
from models.science.levelling.level_run import Sight
from models.units import LengthUnit, parse_length

LONGEST_POINT = 60
LONGEST_REMARK = 2_000


@dataclass(frozen=True, slots=True)
class LevelNotes:
    """The sights of a page, and the row of the file that each stands in."""

    sights: tuple[Sight, ...]
    rows: tuple[int, ...]


def read_notes(data: str | bytes, unit: LengthUnit) -> LevelNotes:
    """Read a table of level notes whose bare numbers are in ``unit``.

    Raises
    ------
    LevelNotesError
        If anything in it cannot be read; ``problems`` on its context lists every fault.
    """
    table = read_table(data)
    problems = list(table.problems)
    sights = [_read_row(row, unit, table, problems) for row in table.rows]
    if problems:
        raise notes_error(problems)
    return LevelNotes(tuple(sights), tuple(row.number for row in table.rows))


def start_from(notes: LevelNotes, start_nm: int) -> LevelNotes:
    """Give the first point of a page the elevation that is known for it from elsewhere.

    Raises
    ------
    LevelNotesError
        If the page itself gives that point another elevation.
    """
    first = notes.sights[0]
    if first.known_nm not in (None, start_nm):
        accepted = "the page gives this point another elevation than the start: keep one of them"
        raise notes_error([NoteProblem(notes.rows[0], "elevation", first.point, accepted)])
    return LevelNotes((replace(first, known_nm=start_nm), *notes.sights[1:]), notes.rows)


def _read_row(row: Row, unit: LengthUnit, table: Table, problems: list[NoteProblem]) -> Sight:
    """Read one row; what is wrong in it is added to ``problems``."""
    before = len(problems)
    point, remarks = row.cells.get("point", ""), row.cells.get("remarks", "")
    is_known = "point" not in table.missing
    if (not point and is_known) or len(point) > LONGEST_POINT:
        accepted = f"a name of 1 to {LONGEST_POINT} characters for the point"
        problems.append(NoteProblem(row.number, "point", point, accepted))
    if len(remarks) > LONGEST_REMARK:
        accepted = f"at most {LONGEST_REMARK} characters"
        problems.append(NoteProblem(row.number, "remarks", remarks, accepted))
    sight = Sight(
        point=point,
        bs_nm=read_cell(row, "BS", unit, problems),
        is_nm=read_cell(row, "IS", unit, problems),
        fs_nm=read_cell(row, "FS", unit, problems),
        known_nm=read_cell(row, "elevation", unit, problems),
        distance_nm=read_cell(row, "distance", unit, problems),
        remarks=remarks,
    )
    if len(problems) == before and not table.missing and not table.has_strange:
        problems.extend(_misplaced(row, sight))
    return sight


def read_cell(row: Row, column: str, unit: LengthUnit, problems: list[NoteProblem]) -> int | None:
    """Length in a cell, or None when it is blank or unreadable."""
    text = row.cells.get(column, "")
    if not text:
        return None
    try:
        return parse_length(text, unit, signed=column == "elevation")
    except UnreadableError as error:
        accepted = f"{error.context['why']}; these would be read: {error.context['forms']}"
        problems.append(NoteProblem(row.number, column, text, accepted))
        return None


def _misplaced(row: Row, sight: Sight) -> list[NoteProblem]:
    """Faults of a row whose cells can be read but do not go together."""
    if sight.is_nm is not None and (sight.bs_nm is not None or sight.fs_nm is not None):
        column = "IS" if sight.bs_nm is None else "BS and IS"
        accepted = "an intermediate sight stands alone; a turning point has FS and BS"
        return [NoteProblem(row.number, column, row.cells["IS"], accepted)]
    if sight.bs_nm is None and sight.elevation_reading_nm is None:
        return [NoteProblem(row.number, "BS, IS, FS", "", "a reading in one of them")]
    return []
