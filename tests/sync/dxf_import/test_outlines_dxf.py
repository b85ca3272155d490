"""Outlines from DXF drawings: layers, units, arcs, and every fault in a sentence."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from io import StringIO
from math import pi
from typing import Any

import pytest
from ezdxf.filemanagement import new

from models.errors import DrawingUnitError, OutlineError, PlanFileError
from models.readers.outlines.read_shapes import PlanShapes, ground_of
from models.science.shapes.outline import find_outline_faults, require_outline
from sync.dxf_import.outlines_dxf import DrawingUnit, read_drawing, read_drawing_facts

FT = 304_800_000
G = {"layer": "GREEN"}
SQUARE = [(0, 0), (60, 0), (60, 100), (0, 100)]
HEAD = b"0\nSECTION\n2\nENTITIES\n"
TAIL = b"0\nENDSEC\n0\nEOF\n"
LINE = b"0\nLINE\n8\nGREEN\n10\n0.0\n20\n0.0\n11\n1.0\n21\n0.0\n"


def drawn(draw: Callable[[Any], object], units: int = 2, version: str = "R2010") -> bytes:
    """A drawing with what ``draw`` puts into it, as the bytes of its file."""
    drawing = new(version)
    drawing.header["$INSUNITS"] = units
    draw(drawing.modelspace())
    stream = StringIO()
    drawing.write(stream)
    return stream.getvalue().encode()


def square(space: Any) -> None:
    """A closed polyline of 60 by 100."""
    space.add_lwpolyline(SQUARE, close=True, dxfattribs=G)


def area_ft2(found: PlanShapes) -> float:
    """Area of the only shape."""
    (shape,) = found.shapes
    return float(require_outline(shape.edge).area_nm2) / FT**2


def test_a_closed_polyline_is_an_outline() -> None:
    """60 by 100 ft, exact."""
    assert area_ft2(read_drawing(drawn(square), "GREEN")) == 6000


def test_a_coordinate_that_is_no_number_is_not_mended(
    caplog: pytest.LogCaptureFixture,
) -> None:
    """The library would read it as another number, with a line in its log: it is refused."""
    data = drawn(square).replace(b" 10\n60.0\n", b" 10\n60.0.\n", 1)

    with pytest.raises(PlanFileError, match="recovered invalid floating point"):
        read_drawing(data, "GREEN")

    assert not caplog.records


def test_lines_make_an_outline_in_any_order() -> None:
    """Four lines drawn anyhow, joined at their ends."""

    def draw(space: Any) -> None:
        for a, b in ((2, 3), (1, 0), (2, 1), (3, 0)):
            space.add_line(SQUARE[a], SQUARE[b], dxfattribs=G)

    (shape,) = read_drawing(drawn(draw), "GREEN").shapes

    assert shape.edge.is_closed
    assert sorted(p.x_nm // FT for p in shape.edge.points) == [0, 0, 60, 60]


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_old_polylines_are_read(version: str) -> None:
    """POLYLINE with its vertices, flat and in space."""

    def draw(space: Any) -> None:
        space.add_polyline2d(SQUARE, close=True, dxfattribs=G)
        points = [(x, y, 7) for x, y in SQUARE]
        space.add_polyline3d(points, close=True, dxfattribs={"layer": "SPACE"})

    data = drawn(draw, version=version)

    for layer in ("GREEN", "SPACE"):
        assert area_ft2(read_drawing(data, layer, DrawingUnit.FOOT)) == 6000


def test_arcs_are_cut_into_chords() -> None:
    """Circle, two half circles as bulges, and arcs with a chord: areas by pi to the chord error."""

    def draw(space: Any) -> None:
        space.add_circle((5, 5), 40, dxfattribs={"layer": "CIRCLE"})
        bulging = [(-40, 0, 1), (40, 0, 1)]
        space.add_lwpolyline(bulging, format="xyb", close=True, dxfattribs={"layer": "BULGE"})
        hollow = [(-40, 0, -1), (40, 0, 0), (40, 90, 0), (-40, 90, 0)]
        space.add_lwpolyline(hollow, format="xyb", close=True, dxfattribs={"layer": "HOLLOW"})
        space.add_arc((0, 0), 40, 0, 180, dxfattribs={"layer": "ARC"})
        space.add_line((-40, 0), (40, 0), dxfattribs={"layer": "ARC"})

    data = drawn(draw)
    wanted = {"CIRCLE": 1, "BULGE": 1, "ARC": 0.5, "HOLLOW": 7200 / (pi * 1600) - 0.5}
    for layer, share in wanted.items():
        found = read_drawing(data, layer, chord_error_nm=10_000)
        assert area_ft2(found) == pytest.approx(share * pi * 1600, rel=1e-5)
        assert area_ft2(read_drawing(data, layer)) == pytest.approx(share * pi * 1600, rel=1e-3)


def test_what_is_drawn_from_below_is_turned_over() -> None:
    """An extrusion that points down mirrors east and west; the outline lies where it shows."""

    def draw(space: Any) -> None:
        down = {**G, "extrusion": (0, 0, -1)}
        space.add_lwpolyline([(-x, y) for x, y in SQUARE], close=True, dxfattribs=down)

        bulging = [(0, 0, -1), (-60, 0, 0), (-60, 100, 0), (0, 100, 0)]
        there = {**down, "layer": "BULGE"}
        space.add_lwpolyline(bulging, format="xyb", close=True, dxfattribs=there)

    data = drawn(draw)
    (shape,) = read_drawing(data, "GREEN").shapes

    assert {p.x_nm // FT for p in shape.edge.points} == {0, 60}
    assert area_ft2(read_drawing(data, "BULGE")) == pytest.approx(6000 + pi * 450, rel=1e-4)


@pytest.mark.parametrize(
    ("code", "unit", "metres"),
    [(1, "in", 0.0254), (2, "ft", 0.3048), (4, "mm", 0.001), (5, "cm", 0.01), (6, "m", 1)],
)
def test_the_unit_of_the_drawing_is_taken(code: int, unit: str, metres: float) -> None:
    """From the header, for those units that are read."""

    def draw(space: Any) -> None:
        space.add_lwpolyline([(0, 0), (6000, 0), (0, 6000)], close=True, dxfattribs=G)

    data = drawn(draw, code)
    (shape,) = read_drawing(data, "GREEN").shapes

    assert read_drawing_facts(data).unit == DrawingUnit(unit)
    assert shape.edge.points[1].x_nm == round(6000 * metres * 1e9)


@pytest.mark.parametrize("code", [0, 3, 8, 20])
def test_a_missing_unit_is_asked_for(code: int) -> None:
    """No unit, or miles, microinches, parsecs: the sentence lists what to give."""
    with pytest.raises(DrawingUnitError, match="one of: in, ft, us-ft, yd, mm") as caught:
        read_drawing(drawn(square, code), "GREEN")

    assert f"$INSUNITS is {code}" in str(caught.value)
    assert read_drawing_facts(drawn(square, code)).unit is None


def test_a_bare_drawing_without_header_asks_for_its_unit() -> None:
    """Entities alone, as old programs write: no default of the library stands in."""
    with pytest.raises(DrawingUnitError):
        read_drawing(HEAD + LINE + TAIL, "GREEN")


def test_a_chosen_unit_wins_and_is_told() -> None:
    """The header says feet, the caller survey feet: 60 of them, with a remark."""
    found = read_drawing(drawn(square), "GREEN", DrawingUnit.SURVEY_FOOT)

    assert found.shapes[0].edge.points[1].x_nm == round(60 * 1200 / 3937 * 1e9)
    assert found.remarks == ("The drawing says ft; it was read in us-ft, as chosen.",)


def test_layers_are_listed_and_told_apart() -> None:
    """Entities by layer, to choose from; only the chosen one is read."""

    def draw(space: Any) -> None:
        square(space)
        space.add_circle((10, 10), 1, dxfattribs={"layer": "HEADS"})
        space.add_circle((20, 10), 1, dxfattribs={"layer": "HEADS"})
        space.add_text("G7", dxfattribs=G)

    data = drawn(draw)
    found = read_drawing(data, "GREEN")

    assert read_drawing_facts(data).layers == {"GREEN": 2, "HEADS": 2}
    assert found.remarks == ("1 TEXT not read.",)
    assert len(read_drawing(data, "HEADS").shapes) == 2


def test_what_stays_open_is_a_fault_and_a_path() -> None:
    """Three sides of a square: as an outline it is refused, as a course it may serve."""

    def draw(space: Any) -> None:
        space.add_lwpolyline(SQUARE, dxfattribs=G)

    found = read_drawing(drawn(draw), "GREEN")

    assert len(found.paths[0].points) == 4
    with pytest.raises(OutlineError, match=r"GREEN 1, 1 fault .*\n.*open.*100\.00 ft"):
        ground_of(found.shapes)


def test_a_clockwise_polyline_is_told_as_an_outline() -> None:
    """A drawing may wind either way; nothing is turned silently."""

    def draw(space: Any) -> None:
        space.add_lwpolyline(SQUARE[::-1], close=True, dxfattribs=G)

    (shape,) = read_drawing(drawn(draw), "GREEN").shapes

    assert "clockwise" in find_outline_faults(shape.edge)[0].sentence


def branch(space: Any) -> None:
    """A square of lines with one more at a corner."""
    for a, b in ((0, 1), (1, 2), (2, 3), (3, 0)):
        space.add_line(SQUARE[a], SQUARE[b], dxfattribs=G)
    space.add_line((0, 0), (-5, -5), dxfattribs=G)


BAD: dict[str, tuple[bytes, str]] = {
    "nothing": (b"", "nothing; give a drawing"),
    "blank": (b" \n\n", "nothing"),
    "words": (b"a drawing of the green", "Invalid group code"),
    "noise": (b"\x00\xff\xfe" * 40, "save it anew"),
    "a dwg": (b"AC1032" + b"\0" * 200, "layer 'GREEN'"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + b"\0" * 50, "save it anew"),
    "binary cut off": (b"AutoCAD Binary DXF\r\n\x1a\x00\x01\x02", "save it anew"),
    "cut in the middle": (drawn(square)[:9_000], "layer 'GREEN'"),
    "no entity": (HEAD + TAIL, "its layers are: none"),
    "a layer that is not there": (drawn(lambda s: s.add_point((0, 0))), "its layers are: 0"),
    "text alone": (drawn(lambda s: s.add_text("x", dxfattribs=G)), "TEXT alone; polylines"),
    "not a number": (HEAD + LINE.replace(b"1.0", b"nan") + TAIL, "no finite number"),
    "infinite": (HEAD + LINE.replace(b"1.0", b"1e999") + TAIL, "no finite number"),
    "letters for a number": (HEAD + LINE.replace(b"1.0", b"one") + TAIL, "floating point"),
    "too far": (HEAD + LINE.replace(b"1.0", b"1e30") + TAIL, "whether the unit is right"),
    "a branch": (drawn(branch), "3 ends of lines meet"),
    "a line of no length": (HEAD + LINE.replace(b"1.0", b"0.0") + TAIL, "layer 'GREEN'"),
    "a circle of nothing": (drawn(lambda s: s.add_circle((0, 0), 0, dxfattribs=G)), "CIRCLE alone"),
    "drawn aslant": (
        drawn(lambda s: s.add_circle((0, 0), 9, dxfattribs={**G, "extrusion": (1, 0, 0)})),
        "CIRCLE alone",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_a_drawing_that_can_not_be_read_is_said(name: str) -> None:
    """A sentence that says what was met and what would be read."""
    data, words = BAD[name]

    with pytest.raises(PlanFileError) as caught:
        read_drawing(data, "GREEN", DrawingUnit.FOOT)

    assert words in str(caught.value)
    assert str(caught.value).startswith("Cannot read the DXF drawing, ")
    assert str(caught.value).endswith(".")


def test_a_drawing_too_large_or_too_full_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Limits on bytes and entities hold before anything is worked out."""
    monkeypatch.setattr("sync.dxf_import.outlines_dxf.MOST_BYTES", 100)
    with pytest.raises(PlanFileError, match="at most 100 are read"):
        read_drawing(drawn(square), "GREEN")
    monkeypatch.setattr("sync.dxf_import.outlines_dxf.MOST_BYTES", 10**9)
    monkeypatch.setattr("sync.dxf_import.outlines_dxf.MOST_ENTITIES", 0)
    with pytest.raises(PlanFileError, match="1 entity"):
        read_drawing(drawn(square), "GREEN")


def test_points_of_a_drawing_are_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    """An arc cut too finely for the limit is told with its handle."""
    monkeypatch.setattr("sync.dxf_import.dxf_pieces.MOST_POINTS", 50)

    with pytest.raises(PlanFileError, match="CIRCLE with handle .* more than 50 points"):
        read_drawing(drawn(lambda s: s.add_circle((0, 0), 90, dxfattribs=G)), "GREEN")


@pytest.mark.parametrize(
    "broken",
    [
        b"0\n33\n5\nA1\n",  # of no kind that is known, and on no layer
        b"0\nLINE\n8\nGREEN\n",  # a line that runs from nowhere to nowhere
        b"0\nPOLYLINE\n8\nGREEN\n66\n1\n70\n0\n0\nVERTEX\n8\nGREEN\n42\n0.0\n0\nSEQEND\n",
    ],
)
def test_an_entity_that_lacks_what_it_needs_is_said(broken: bytes) -> None:
    """An entity without its layer or its places ends in an answer or a sentence, never a crash."""
    data = HEAD + LINE + broken + TAIL

    assert read_drawing_facts(data).layers["GREEN"] >= 1
    with suppress(PlanFileError):
        read_drawing(data, "GREEN", DrawingUnit.FOOT)
    with pytest.raises(PlanFileError, match="no entity on layer"):
        read_drawing(data, "BLUE", DrawingUnit.FOOT)


def test_a_drawing_whose_letters_are_broken_is_said() -> None:
    """Bytes that are no letters, and half a character for a layer, stop no drawing unheard."""
    with pytest.raises(PlanFileError, match="decoding error"):
        read_drawing_facts(drawn(square, version="R2000").replace(b"GREEN", b"GR\xff\x81\xfe"))
    half = drawn(square, version="R2000").replace(b"GREEN", b"GR\\U+DC80")

    assert list(read_drawing_facts(half).layers) == ["GR\udc80"]


def test_whatever_the_library_raises_is_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault of the library's own, of any kind, is told as a file that can't be read."""

    def fail(*_: object) -> None:
        raise UnicodeError("no such letter")

    monkeypatch.setattr("sync.dxf_import.outlines_dxf._facts", fail)

    with pytest.raises(PlanFileError, match="UnicodeError: no such letter"):
        read_drawing_facts(drawn(square))
