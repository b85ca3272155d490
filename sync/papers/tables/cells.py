"""Tables of typed cells for a day sheet: XLSX and CSV both come from these."""

from __future__ import annotations

from dataclasses import dataclass

from models.units.job_units import Figures
from sync.papers.wording.measures import Measure, number, unit_of
from sync.papers.wording.safe_text import single_line

Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class Column:
    """A column; a number's unit stands in its header."""

    name: str
    unit: str = ""

    @property
    def header(self) -> str:
        """Name with the unit, such as ``depth_in``."""
        return f"{self.name}_{self.unit}" if self.unit else self.name


@dataclass(frozen=True, slots=True)
class Table:
    """A section of facts: text cells are text, numbers are numbers, None is not known."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]


class CellMaker:
    """Makes columns and cells in the units of one job."""

    def __init__(self, figures: Figures) -> None:
        self.is_us = figures.is_us

    def column(self, name: str, measure: Measure) -> Column:
        """Make a column of one measure."""
        return Column(name, unit_of(measure, self.is_us))

    def depth(self, nm: int | None) -> Cell:
        """Make a cell of a depth or width."""
        return number(Measure.DEPTH, nm, self.is_us)

    def length(self, nm: int | None) -> Cell:
        """Make a cell of a length along the ground, or a station."""
        return number(Measure.LENGTH, nm, self.is_us)

    def of(self, measure: Measure, value: int | None) -> Cell:
        """Make a cell of any measure."""
        return number(measure, value, self.is_us)


def table(name: str, columns: list[Column | str], rows: list[list[Cell]]) -> Table:
    """Make a table: names become unitless columns, every text is brought to one safe line."""
    made = tuple(column if isinstance(column, Column) else Column(column) for column in columns)
    safe = tuple(
        tuple(single_line(cell) if isinstance(cell, str) else cell for cell in row) for row in rows
    )
    return Table(name, made, safe)
