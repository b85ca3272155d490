"""A page of peg-test notes: four readings and two distances, read and worked out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.errors import CalculationInputError
from models.readers.level_notes.problems import NoteProblem, notes_error
from models.readers.level_notes.reader import read_cell
from models.readers.level_notes.table import Form, Row, Table, heads_of, read_table
from models.science.levelling.collimation import (
    PegReadings,
    collimation_error,
    corrected_reading_nm,
    peg_limit,
)
from models.units import LengthUnit

PEG_COLUMNS = ("setup", "peg", "reading", "distance", "remarks")
"""Columns of the page, one row a reading; distance is needed at the second setup."""

_FORM = Form(
    {
        "setup": ("setup", "set-up", "from"),
        "peg": ("peg",),
        "reading": ("reading", "rod", "rod reading"),
        "distance": ("distance", "dist", "length"),
        "remarks": ("remarks", "remark", "notes", "note"),
    },
    ("setup", "peg", "reading", "distance"),
)
_SETUPS = {"mid": "mid", "midway": "mid", "middle": "mid", "end": "end", "near": "end"}
_PLACES = {"mid": "midway", "end": "end"}
_WANTED = tuple((setup, peg) for setup in ("mid", "end") for peg in ("a", "b"))


@dataclass(frozen=True, slots=True)
class PegPage:
    """A peg test worked out: its readings, the error of the line of sight, the limit."""

    unit: LengthUnit
    readings: PegReadings
    error: Fraction
    limit: Fraction

    @property
    def is_good(self) -> bool:
        """Whether the error is no larger than the limit; on it counts as within."""
        return abs(self.error) <= self.limit

    @property
    def right_nm(self) -> tuple[Fraction, Fraction]:
        """Readings of a level line of sight on A and on B from the second setup."""
        seen = self.readings
        return (
            corrected_reading_nm(seen.end_a_nm, seen.to_a_nm, self.error),
            corrected_reading_nm(seen.end_b_nm, seen.to_b_nm, self.error),
        )


def is_peg_page(data: str | bytes) -> bool:
    """Whether a table has a column of pegs, so that it is a peg test and no run of levels.

    Raises
    ------
    LevelNotesError
        If it is not text or too large.
    """
    return any(_FORM.column(head) == "peg" for head in heads_of(data))


def read_peg_page(
    data: str | bytes, unit: LengthUnit, limit_millionths: int | None = None
) -> PegPage:
    """Read a page of peg-test notes whose bare numbers are in ``unit``, and work it out.

    Raises
    ------
    LevelNotesError
        If anything in it cannot be read, or the four readings are not all there.
    """
    found: dict[str, int] = {}
    table = read_table(data, _FORM)
    problems = list(table.problems)
    for row in table.rows:
        _read_row(row, unit, table, found, problems)
    if not problems:
        problems += _missing(found)
    if problems:
        raise notes_error(problems)
    readings = PegReadings(**found)
    try:
        error = collimation_error(readings)
    except CalculationInputError as fault:
        accepted = f"{fault.context['why']}. {fault.context['accepted']}"
        raise notes_error([NoteProblem(None, "distance", "", accepted)]) from fault
    return PegPage(unit, readings, error, peg_limit(limit_millionths, None))


def _read_row(
    row: Row,
    unit: LengthUnit,
    table: Table,
    found: dict[str, int],
    problems: list[NoteProblem],
) -> None:
    """Read one row; what is wrong in it is added to ``problems``."""
    before = len(problems)
    setup = _SETUPS.get(row.cells.get("setup", "").casefold(), "")
    peg = row.cells.get("peg", "").casefold()
    if not setup and "setup" not in table.missing:
        accepted = "midway, or end for the setup close to a peg"
        problems.append(NoteProblem(row.number, "setup", row.cells.get("setup", ""), accepted))
    if peg not in {"a", "b"} and "peg" not in table.missing:
        accepted = "A or B"
        problems.append(NoteProblem(row.number, "peg", row.cells.get("peg", ""), accepted))
    reading = _needed(row, "reading", unit, table, problems)
    distance = _needed(row, "distance", unit, table, problems) if setup == "end" else None
    if len(problems) > before or reading is None or not setup or not peg:
        return
    name = f"{setup}_{peg}_nm"
    if name in found:
        accepted = f"one reading on {peg.upper()} from {_PLACES[setup]}; it stands above already"
        problems.append(NoteProblem(row.number, "peg", peg.upper(), accepted))
    found[name] = reading
    if distance is not None:
        found[f"to_{peg}_nm"] = distance


def _needed(
    row: Row, column: str, unit: LengthUnit, table: Table, problems: list[NoteProblem]
) -> int | None:
    """Length in a cell that must be filled, where the page has its column."""
    if column in table.missing:
        return None
    if not row.cells.get(column, ""):
        accepted = "a rod reading" if column == "reading" else "how far the rod stood"
        problems.append(NoteProblem(row.number, column, "", accepted))
        return None
    return read_cell(row, column, unit, problems)


def _missing(found: dict[str, int]) -> list[NoteProblem]:
    """Readings that the page does not have."""
    return [
        NoteProblem(None, "peg", peg.upper(), f"a reading on it from {_PLACES[setup]}")
        for setup, peg in _WANTED
        if f"{setup}_{peg}_nm" not in found
    ]
