"""Features as neutral layers: one table of typed cells each, with a shape for each row.

GeoJSON, GeoPackage, KML and CSV are all written from these, so that a column has the same
name, unit and figure in each. Shapes stay in the local plane, in nanometres; a writer turns
them into what its form asks for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Generic, TypeVar

from models.science.shapes.rings import PointNm, signed_area_nm2
from sync.papers.asbuilt.features.course import Course, Place
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.day.csv_file import plain_number
from sync.papers.tables.cells import Cell, Column
from sync.papers.wording.measures import Measure, number, unit_of

Thing = TypeVar("Thing")
_DIGITS = 6


class ShapeKind(StrEnum):
    """Kind of shape that the rows of a layer have on the ground."""

    POINT = "Point"
    LINE = "LineString"
    AREA = "Polygon"
    NONE = ""


class CellType(StrEnum):
    """Type of the cells of a column; any of them may be None."""

    WORDS = "words"
    COUNT = "count"
    NUMBER = "number"


Shape = tuple[Course, ...]
"""A point's or a line's places in one part; an area's edge, then its islands, none closed."""


@dataclass(frozen=True, slots=True)
class LayerRow:
    """A feature: a name that stays the same from run to run, its shape, its cells."""

    key: str
    shape: Shape | None
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Layer:
    """Features of one subject; ``has_levels`` where shapes carry levels above the datum.

    ``holds`` names what each column holds, also where it has no row.
    """

    name: str
    title: str
    kind: ShapeKind
    has_levels: bool
    columns: tuple[Column, ...]
    holds: tuple[CellType, ...]
    rows: tuple[LayerRow, ...]


@dataclass(frozen=True, slots=True)
class Field(Generic[Thing]):
    """A column of a layer and how its cell is read off a feature."""

    column: Column
    cell: Callable[[Thing], Cell]
    holds: CellType


class LayerMaker:
    """Makes layers in the units of one job."""

    def __init__(self, job: AsBuilt) -> None:
        self.is_us, self.figures = job.is_us, job.figures

    def text(self, name: str, cell: Callable[[Thing], Cell]) -> Field[Thing]:
        """Make a column of words."""
        return Field(Column(name), cell, CellType.WORDS)

    def count(self, name: str, cell: Callable[[Thing], int]) -> Field[Thing]:
        """Make a column of whole numbers without a unit."""
        return Field(Column(name), cell, CellType.COUNT)

    def percent(self, name: str, grade: Callable[[Thing], Fraction | None]) -> Field[Thing]:
        """Make a column of grades in percent."""
        return Field(Column(name, "percent"), lambda one: _percent(grade(one)), CellType.NUMBER)

    def measure(
        self, name: str, measure: Measure, value: Callable[[Thing], int | Fraction | None]
    ) -> Field[Thing]:
        """Make a column of a measure, in the job's unit."""
        column = Column(name, unit_of(measure, self.is_us))
        return Field(column, lambda one: number(measure, value(one), self.is_us), CellType.NUMBER)

    def layer(
        self,
        head: tuple[str, str, ShapeKind],
        things: Iterable[Thing],
        shape: Callable[[Thing], Shape | None],
        fields: Sequence[Field[Thing]],
        *,
        has_levels: bool = False,
    ) -> Layer:
        """Make a layer; ``head`` is its name, its title and what its rows look like."""
        name, title, kind = head
        rows = tuple(
            LayerRow(f"{name}-{at}", shape(thing), tuple(field.cell(thing) for field in fields))
            for at, thing in enumerate(things, start=1)
        )
        return Layer(
            name,
            title,
            kind,
            has_levels,
            tuple(one.column for one in fields),
            tuple(one.holds for one in fields),
            rows,
        )


def _percent(grade: Fraction | None) -> float | None:
    return None if grade is None else float(round(grade * 100, _DIGITS))


def point_shape(place: Place | None) -> Shape | None:
    """Shape of a point, where its place is known."""
    return ((place,),) if place is not None else None


def line_shape(*places: Place | None) -> Shape | None:
    """Shape of a line; None where a place is missing or nothing is left of it."""
    known = tuple(place for place in places if place is not None)
    return (known,) if len(known) == len(places) and len(set(known)) > 1 else None


def area_shape(edge: Course, islands: Sequence[Course] = ()) -> Shape | None:
    """Shape of an area: its edge counterclockwise, islands clockwise; None without an edge."""
    if not is_ring(edge):
        return None
    return orient_ring(edge, True), *(orient_ring(one, False) for one in islands if is_ring(one))


def is_ring(course: Course) -> bool:
    """Whether a course bounds any ground."""
    return len(course) > 2 and signed_area_nm2(_points(course)) != 0


def orient_ring(course: Course, is_counterclockwise: bool) -> Course:
    """Ring turned clockwise or counterclockwise."""
    is_so = signed_area_nm2(_points(course)) > 0
    return course if is_so == is_counterclockwise else course[::-1]


def _points(course: Course) -> list[PointNm]:
    return [PointNm(place.x_nm, place.y_nm) for place in course]


def yes_text(is_so: bool) -> str:
    """A plain word for a column that a person reads."""
    return "yes" if is_so else "no"


def cells_of(layer: Layer, row: LayerRow) -> Iterator[tuple[str, str]]:
    """Cells of a row in words; a figure that is not known is left out."""
    for column, cell in zip(layer.columns, row.cells, strict=True):
        if cell is not None:
            yield column.header, _words(cell)


def _words(cell: Cell) -> str:
    return cell if isinstance(cell, str) else plain_number(cell or 0)
