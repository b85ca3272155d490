"""Tables of points and of offsets."""

from __future__ import annotations

import pytest

from models.errors import OutlineError, PlanFileError
from models.readers.outlines.points_csv import read_offsets_csv, read_points_csv
from models.readers.outlines.read_shapes import ground_of
from models.science.shapes.offsets import OffsetRow, trace_offsets
from models.science.shapes.outline import require_outline
from models.science.shapes.rings import PointNm
from models.units import LengthUnit

FT = 304_800_000
WALK = "point,x,y\nA,0,0\nB,60,0\nC,60,100\nD,0,100\nA,0,0\n"


def test_points_are_read_exactly() -> None:
    """60 by 100 ft, closed since it ends where it began."""
    found = read_points_csv(WALK, LengthUnit.FT)
    sound = require_outline(found.shapes[0].edge)

    assert sound.area_nm2 == 6000 * FT * FT
    assert [point.name for point in found.points] == ["A", "B", "C", "D", "A"]


def test_cells_may_bring_their_own_units_and_signs() -> None:
    """Feet and inches beside metres, west and south negative."""
    table = "easting;northing\n-1 m;2'6\"\n12.5;-3 in\n"
    points = read_points_csv(table, LengthUnit.FT).points

    assert [point.at for point in points] == [
        PointNm(-(10**9), 762_000_000),
        PointNm(3_810_000_000, -76_200_000),
    ]


def test_several_outlines_stand_one_after_the_other() -> None:
    """Each run of rows with one name is an outline of its own."""
    table = "outline,x,y\n" + "".join(
        f"{name},{x + east},{y}\n"
        for name, east in (("G7", 0), ("G8", 100))
        for x, y in ((0, 0), (9, 0), (9, 9), (0, 0))
    )
    shapes = read_points_csv(table.encode(), LengthUnit.M).shapes

    assert [shape.name for shape in shapes] == ["G7", "G8"]
    assert len(ground_of(shapes).outlines) == 2


def test_a_walk_that_stops_short_is_an_open_outline() -> None:
    """Nothing is closed silently: the sentence says how wide the gap is."""
    shapes = read_points_csv(WALK.removesuffix("A,0,0\n"), LengthUnit.FT).shapes

    with pytest.raises(OutlineError, match=r"it is open: .*100\.00 ft"):
        ground_of(shapes)


def test_offsets_are_read_and_blank_ones_were_not_measured() -> None:
    """Stations in feet; a blank cell is no zero."""
    rows = read_offsets_csv("station,left,right\n0,0,0\n10,,5\n20,4,6\n40,0,0\n", LengthUnit.FT)

    assert rows[1] == OffsetRow(10 * FT, None, 5 * FT)
    assert require_outline(trace_offsets(rows)).area_nm2 > 0


BAD: dict[str, tuple[str | bytes, str]] = {
    "nothing": ("", "nothing; a header with x, y"),
    "blank lines": ("\n \n,,\n", "nothing"),
    "a header alone": ("x,y\n", "a header alone"),
    "no header": ("1,2\n3,4\n", "row 1, header: '1'; the columns are point, x, y, outline"),
    "a strange column": ("x,y,z\n1,2,3\n", "'z'"),
    "a column twice": ("x,y,east\n1,2,3\n", "the column x 2 times"),
    "no y": ("x\n1\n", "a column y is needed"),
    "a blank cell": ("x,y\n1,\n", "row 2, y: ''; nothing was typed"),
    "words": ("x,y\n1,two\n", "row 2, y: 'two'"),
    "a short row": ("x,y\n1\n", "row 2, y"),
    "a long row": ("x,y\n1,2,3\n", "row 2: 3 cells; 2 are in the header"),
    "not a number": ("x,y\n1,nan\n", "'nan'"),
    "infinite": ("x,y\n1,inf\n", "'inf'"),
    "an exponent": ("x,y\n1,1e9\n", "'1e9'"),
    "an area": ("x,y\n1,5 m2\n", "'5 m2'"),
    "a strange unit": ("x,y\n1,5 furlong\n", "furlong"),
    "too far": ("x,y\n1,99999999999999999999\n", "row 2, y"),
    "endless digits": (f"x,y\n1,{'9' * 5000}\n", "row 2, y"),
    "an open quotation": ('x,y\n1,"2\n', "close every quotation mark"),
    "a workbook": (b"PK\x03\x04\0\0", "zero character"),
    "utf-16": ("x,y\n1,2\n".encode("utf-16"), "CSV UTF-8"),
    "too large": ("x" * 5_000_001, "5000001 bytes"),
    "too many rows": ("x,y\n" + "1,2\n" * 50_001, "50001 rows"),
    "torn apart": ("outline,x,y\nA,0,0\nB,1,1\nA,2,2\n", "row 4, outline: 'A'; keep the points"),
}
BAD_OFFSETS: dict[str, tuple[str, str]] = {
    "no right": ("station,left\n0,1\n", "a column right is needed"),
    "neither": ("station,left,right\n0,,\n", "row 2: no offset"),
    "a word": ("station,left,right\n0,x,1\n", "row 2, left: 'x'"),
    "no station": ("station,left,right\n,1,1\n", "row 2, station"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_table_of_points_that_can_not_be_read_is_said(name: str) -> None:
    """A sentence with row and column."""
    data, words = BAD[name]

    with pytest.raises(PlanFileError) as caught:
        read_points_csv(data, LengthUnit.FT)

    assert words in str(caught.value)
    assert str(caught.value).startswith("Cannot read the table of points, ")


@pytest.mark.parametrize("name", BAD_OFFSETS)
def test_a_table_of_offsets_that_can_not_be_read_is_said(name: str) -> None:
    """A sentence with row and column."""
    data, words = BAD_OFFSETS[name]

    with pytest.raises(PlanFileError) as caught:
        read_offsets_csv(data, LengthUnit.FT)

    assert words in str(caught.value)


def test_every_fault_of_a_table_is_told_with_its_row() -> None:
    """A row with a cell too many hides neither what can't be read in it nor the rows after it."""
    page = "point,x,y\nA,0,0,7\nB,six,0\nC,60,1..0,9\n"

    with pytest.raises(PlanFileError) as caught:
        read_points_csv(page, LengthUnit.FT)

    problems = caught.value.context["problems"]
    assert [one.place for one in problems] == [  # type: ignore[attr-defined]
        "row 2",
        "row 4",
        "row 3, x",
        "row 4, y",
    ]
