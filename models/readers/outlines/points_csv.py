"""Outlines from a table of points, or of offsets from a baseline, saved as CSV."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from models.errors import UnreadableError
from models.readers.outlines.csv_table import Table, read_table
from models.readers.outlines.problems import FileProblem, refuse_file
from models.readers.outlines.read_shapes import NamedPoint, PlanShapes, TracedShape
from models.science.shapes.offsets import OffsetRow
from models.science.shapes.outline import Trace
from models.science.shapes.rings import PointNm
from models.units import LengthUnit, StationStyle, parse_length, parse_station

FORM = "table of points"
_TABLE = "of the table"
OFFSETS_FORM = "table of offsets"
_POINT_COLUMNS = {
    "point": ("point", "pt", "name", "no"),
    "x": ("x", "east", "easting", "e"),
    "y": ("y", "north", "northing", "n"),
    "outline": ("outline", "surface", "shape"),
}
_OFFSET_COLUMNS = {
    "station": ("station", "sta"),
    "left": ("left", "offset left", "left offset"),
    "right": ("right", "offset right", "right offset"),
}


@dataclass(frozen=True, slots=True)
class _Cell:
    """One cell and how to name it in a fault; no text where the table lacks its column."""

    row: int
    column: str
    text: str | None

    def read_nm(
        self, unit: LengthUnit, problems: list[FileProblem], stations: StationStyle | None = None
    ) -> int:
        """The length in it, either sign, or a station; 0 and a fault where there is none."""
        if self.text is None:
            return 0
        try:
            if stations is not None and "+" in self.text:
                return parse_station(self.text, stations)
            return parse_length(self.text, unit, signed=True)
        except UnreadableError as error:
            place = f"row {self.row}, {self.column}"
            forms = f"{error.context['why']}, where a length is expected"
            problems.append(FileProblem(place, repr(self.text), forms))
            return 0


def read_points_csv(data: str | bytes, unit: LengthUnit) -> PlanShapes:
    """Read points in the order they were walked; bare numbers are in ``unit``.

    Columns: x and y; point, if they have names; outline, if there are several, each in one
    run of rows. A walk that ends on its first point is closed; one that does not is open,
    which its trace says.

    Raises
    ------
    PlanFileError
        If anything in it cannot be read; ``problems`` on its context lists every fault.
    """
    table = read_table(data, FORM, _POINT_COLUMNS, ("x", "y"))
    problems = list(table.problems)
    named: list[tuple[str, NamedPoint]] = []
    for number, cells in table.rows:
        x_nm, y_nm = (
            _cell(table, number, cells, column).read_nm(unit, problems) for column in ("x", "y")
        )
        point = NamedPoint(cells.get("point", "") or str(len(named) + 1), PointNm(x_nm, y_nm))
        named.append((cells.get("outline", ""), point))
    problems += _torn_apart(table)
    if problems:
        refuse_file(FORM, problems)
    shapes = [
        TracedShape(
            name or _TABLE, Trace.from_walk([point.at for _, point in walk], name or _TABLE)
        )
        for name, walk in ((key, list(rows)) for key, rows in groupby(named, lambda row: row[0]))
    ]
    points = tuple(point for _, point in named)
    return PlanShapes(tuple(shapes), points=points, are_walks=True)


def _cell(table: Table, number: int, cells: Mapping[str, str], column: str) -> _Cell:
    return _Cell(number, column, None if column in table.missing else cells[column])


def _torn_apart(table: Table) -> list[FileProblem]:
    """Outlines that are taken up again further down."""
    done: set[str] = set()
    before = None
    problems: list[FileProblem] = []
    for number, cells in table.rows:
        name = cells.get("outline", "")
        if name != before and name in done:
            accepted = "keep the points of one outline together, in the order they were walked"
            problems.append(FileProblem(f"row {number}, outline", repr(name), accepted))
        done.add(name)
        before = name
    return problems


def read_offsets_csv(
    data: str | bytes, unit: LengthUnit, stations: StationStyle = StationStyle.US_100FT
) -> Sequence[OffsetRow]:
    """Read a baseline: station, and the offset to the left, the right or both.

    Bare numbers are in ``unit``; stations with a + go by ``stations``; a cell left blank
    was not measured.

    Raises
    ------
    PlanFileError
        If anything in it cannot be read; ``problems`` on its context lists every fault.
    """
    table = read_table(data, OFFSETS_FORM, _OFFSET_COLUMNS, ("station", "left", "right"))
    problems = list(table.problems)
    rows: list[OffsetRow] = []
    for number, cells in table.rows:
        station = _cell(table, number, cells, "station")
        station_nm = station.read_nm(unit, problems, stations)
        left_nm, right_nm = (
            _Cell(number, side, cells[side]).read_nm(unit, problems) if cells[side] else None
            for side in ("left", "right")
        )
        if left_nm is None and right_nm is None and not table.missing & {"left", "right"}:
            accepted = "give the offset to the left, the right or both"
            problems.append(FileProblem(f"row {number}", "no offset", accepted))
        rows.append(OffsetRow(station_nm, left_nm, right_nm))
    if problems:
        refuse_file(OFFSETS_FORM, problems)
    return tuple(rows)
