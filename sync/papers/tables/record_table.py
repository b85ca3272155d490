"""Tables of the record: each cell as paper shows it and as a workbook holds it.

One table feeds the PDF and the XLSX, so that the two can't disagree.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from models.units.job_units import Figures
from sync.papers.tables.cells import Cell
from sync.papers.wording.measures import Measure, number, number_text, printed_unit, unit_of
from sync.papers.wording.safe_text import single_line


@dataclass(frozen=True, slots=True)
class Field:
    """A column: its name and unit in the workbook, its head and width in mm on paper.

    A width of 0 takes what is left; a field without a head is left off the paper.
    """

    name: str
    head: str = ""
    width_mm: float = 0.0
    unit: str = ""
    is_number: bool = False

    @property
    def header(self) -> str:
        """Name with its unit, as the workbook heads the column."""
        return f"{self.name}_{self.unit}" if self.unit else self.name


@dataclass(frozen=True, slots=True)
class RecordCell:
    """A cell: words on paper, value in the workbook."""

    shown: str
    value: Cell


@dataclass(frozen=True, slots=True)
class Row:
    """A row; a struck one is printed with a line through it."""

    items: tuple[RecordCell, ...]
    is_struck: bool = False
    is_heavy: bool = False


@dataclass(frozen=True, slots=True)
class Record:
    """A table: ``name`` is its tab, ``title`` its heading; ``none`` is printed when it is empty."""

    name: str
    title: str
    fields: tuple[Field, ...]
    rows: tuple[Row, ...]
    none: str = "None written down."
    note: str = ""

    @property
    def printed_columns(self) -> list[int]:
        """Places of the columns that paper shows."""
        return [place for place, field in enumerate(self.fields) if field.head]


def text_cell(text: str) -> RecordCell:
    """Make a cell of words."""
    return RecordCell(text, text)


def count_cell(count: int | None) -> RecordCell:
    """Make a cell of a whole number; a dash where there is none."""
    return RecordCell("-" if count is None else f"{count}", count)


class MeasureCells:
    """Makes fields and cells of measures in the units of one job."""

    def __init__(self, figures: Figures) -> None:
        self.figures = figures

    def field(self, name: str, measure: Measure, head: str, width_mm: float) -> Field:
        """Make a column of one measure, its unit in both heads."""
        unit = unit_of(measure, self.figures.is_us)
        shown = f"{head}, {printed_unit(measure, self.figures)}" if head else ""
        return Field(name, shown, width_mm, unit, is_number=True)

    def of(self, measure: Measure, value: int | Fraction | None) -> RecordCell:
        """Make a cell of one measure."""
        return RecordCell(
            number_text(measure, value, self.figures), number(measure, value, self.figures.is_us)
        )

    def station(self, nm: int) -> RecordCell:
        """Make a cell of a station: as it is written, and along the line in the workbook."""
        return RecordCell(self.figures.station(nm), number(Measure.LENGTH, nm, self.figures.is_us))

    def station_field(self, name: str, head: str, width_mm: float = 12.5) -> Field:
        """Make a column of stations."""
        return Field(name, head, width_mm, unit_of(Measure.LENGTH, self.figures.is_us))


def make_record(
    name: str,
    title: str,
    fields: Sequence[Field],
    rows: Iterable[Row | Sequence[RecordCell]],
    none: str = "None written down.",
    note: str = "",
) -> Record:
    """Make a table; a plain list of cells is an ordinary row, every text is made safe to print."""
    made = (row if isinstance(row, Row) else Row(tuple(row)) for row in rows)
    safe = tuple(replace(row, items=tuple(map(_safe, row.items))) for row in made)
    return Record(name, title, tuple(fields), safe, none, single_line(note))


_line = lru_cache(maxsize=8192)(single_line)
"""Most cells of a long table say what the one above says."""


def _safe(item: RecordCell) -> RecordCell:
    value = _line(item.value) if isinstance(item.value, str) else item.value
    return RecordCell(_line(item.shown), value)
