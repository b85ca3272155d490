"""Outlines, keep-outs and courses brought in by command, from every form they come in."""

from __future__ import annotations

import json
import re
from io import StringIO
from math import cos, pi, radians, sin
from pathlib import Path
from typing import Any

import pyproj
import pytest
from ezdxf.filemanagement import new

from crewapp.cli.books import book_to_read
from crewapp.cli.main import main
from models.entries.body import Body
from models.entries.index import EntryKind
from models.entries.kind_names import LAYOUT, LOCAL_PLANE, SURFACE
from models.science.shapes.rings import PointNm, perimeter_nm, signed_area_nm2
from tests.models.readers.outlines.geo_text import HOLE, SQUARE, collection, feature, polygon, text

PLAN = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"
FT = 304_800_000
GEOD = pyproj.Geod(ellps="WGS84")
Captured = pytest.CaptureFixture[str]
FIELD = ("--surface", "F9", "--name", "Field nine", "--use", "field")


@pytest.fixture
def book(tmp_path: Path, capsys: Captured) -> Path:
    """A book with a job and a collector, and no surface yet."""
    told = {**json.loads(PLAN.read_text("utf-8")), "surface": []}
    (tmp_path / "job.json").write_text(json.dumps(told), "utf-8")
    assert main(["plan", str(tmp_path / "b.book"), str(tmp_path / "job.json")]) == 0
    capsys.readouterr()
    return tmp_path / "b.book"


def bring(book: Path, name: str, data: str | bytes, *words: str) -> int:
    """Bring in a file that holds some text."""
    path = book.parent / name
    path.write_bytes(data.encode() if isinstance(data, str) else data)
    return main(["plan", "import", str(book), str(path), *words, "--out", str(book.parent / "out")])


def latest(book: Path, kind: EntryKind[Body], name: str = "F9") -> Any:
    """What stands in the book."""
    with book_to_read(book) as job:
        return job.state.latest(kind, name)


def area_ft2(book: Path) -> float:
    """Area of the surface in the book."""
    ring = [PointNm(one.x_nm, one.y_nm) for one in latest(book, SURFACE).outline]
    return float(signed_area_nm2(ring)) / FT**2


def drawing(units: int = 2) -> bytes:
    """A DXF drawing of a green of 60 by 100 with a round bunker, each on its own layer."""
    made = new("R2010")
    made.header["$INSUNITS"] = units
    space = made.modelspace()
    corners = [(0, 0), (60, 0), (60, 100), (0, 100)]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "GREEN"})
    space.add_circle((30, 50), 10, dxfattribs={"layer": "BUNKER"})
    space.add_lwpolyline([(0, -2), (60, -2)], dxfattribs={"layer": "PIPE"})
    stream = StringIO()
    made.write(stream)
    return stream.getvalue().encode()


def test_baseline_and_offsets(book: Path) -> None:
    """A baseline of 100 ft, 10 ft to the left and 20 to the right: 3,000 ft2."""
    page = "station,left,right\n0+00,10,20\n0+50,10,20\n1+00,10,20\n"

    assert bring(book, "base.csv", page, *FIELD, "--bearing", "N 30 E", "--origin", "9 ft,0") == 0

    assert area_ft2(book) == pytest.approx(3000)
    assert latest(book, LAYOUT).source == "base.csv"


def test_points_in_the_unit_that_was_chosen(book: Path) -> None:
    """A walk of 10 by 20 m, closed on its first point."""
    page = "point,x,y\n1,0,0\n2,10,0\n3,10,20\n4,0,20\n5,0,0\n"

    assert bring(book, "walk.csv", page, *FIELD, "--unit", "m") == 0

    assert area_ft2(book) == pytest.approx(200 / 0.3048**2)


def test_geojson_chooses_the_plane_and_keeps_its_size(book: Path) -> None:
    """Area, edge and lines of a whole surface within 0.1 % of the geodesic ones."""
    ring = [
        [-93.6 + 0.002 * cos(t) * (1 + 0.3 * cos(3 * t)), 41.6 + 0.0015 * sin(t)]
        for t in (2 * pi * n / 60 for n in range(60))
    ]
    data = text(feature(polygon([*ring, ring[0]]), "nine"))

    assert bring(book, "nine.geojson", data, *FIELD) == 0

    lons, lats = zip(*ring, strict=True)
    area, edge = GEOD.polygon_area_perimeter(lons, lats)
    plan = [PointNm(one.x_nm, one.y_nm) for one in latest(book, SURFACE).outline]
    assert area_ft2(book) * 0.3048**2 == pytest.approx(area, rel=1e-3)
    assert perimeter_nm(plan) / 1e9 == pytest.approx(edge, rel=1e-3)
    assert main(["plan", "layout", str(book), "--surface", "F9", "--sand-slits", "5ft"]) == 0
    length = sum(line.length_nm for line in latest(book, SURFACE).lines) / 1e9
    assert length == pytest.approx(area / (5 * 0.3048), rel=5e-3)
    assert latest(book, LOCAL_PLANE, "").how == "set by nine.geojson"


def test_a_second_geojson_goes_into_the_same_plane(book: Path) -> None:
    """What was chosen once holds: the same file again lies in the same place."""
    data = text(feature(polygon(SQUARE), "square"))
    bring(book, "a.geojson", data, *FIELD)
    first = latest(book, SURFACE).outline

    assert bring(book, "b.geojson", data, "--surface", "G2", "--name", "G", "--use", "green") == 0
    with book_to_read(book) as job:
        assert job.state.latest(SURFACE, "G2").outline == first  # type: ignore[union-attr]
        assert len(job.state.current(LOCAL_PLANE)) == 1


def test_geojson_needs_the_plane_where_other_ground_is_drawn(book: Path, capsys: Captured) -> None:
    """Ground typed in a plane that lies nowhere: the origin is asked for, then used."""
    rectangle = ("--surface", "R1", "--name", "R", "--use", "green", "--rectangle", "60ft x 90ft")
    main(["plan", "layout", str(book), *rectangle, "--sand-slits", "16in"])
    data = text(feature(polygon(SQUARE), "square"))

    assert bring(book, "a.geojson", data, *FIELD) == 2
    assert "R1 is drawn in a plane" in capsys.readouterr().err
    assert latest(book, SURFACE) is None
    assert bring(book, "a.geojson", data, *FIELD, "--plane", "45, 7") == 0
    assert (latest(book, LOCAL_PLANE, "").lat_ndeg, latest(book, SURFACE).outline[0].x_nm) == (
        45 * 10**9,
        0,
    )


def test_holes_of_a_polygon_are_keep_outs(book: Path) -> None:
    """With the clearance that was given."""
    data = text(collection(feature(polygon(SQUARE, HOLE), "nine")))

    assert bring(book, "nine.json", data, *FIELD, "--clearance", "12 in") == 0

    (hole,) = latest(book, LAYOUT).keep_outs
    assert (hole.name, hole.clearance_nm) == ("hole 1", FT)


def test_a_hole_in_a_keep_out_is_an_island(book: Path) -> None:
    """Ground within a pond is cut again: more lines than with the pond alone."""
    pond = [[7.0002, 45.0002], [7.0008, 45.0002], [7.0008, 45.0008], [7.0002, 45.0008]]
    bring(book, "field.geojson", text(feature(polygon(SQUARE), "nine")), *FIELD)
    main(["plan", "layout", str(book), "--surface", "F9", "--sand-slits", "1ft"])
    lengths = []
    for rings in ([[*pond, pond[0]]], [[*pond, pond[0]], HOLE]):
        data = text(feature(polygon(*rings), "pond"))
        assert bring(book, "pond.geojson", data, "--surface", "F9", "--as", "keep-outs") == 0
        lengths.append(sum(line.length_nm for line in latest(book, SURFACE).lines) / FT)

    lons, lats = zip(*HOLE, strict=True)
    area, _ = GEOD.polygon_area_perimeter(lons, lats)
    assert (lengths[1] - lengths[0]) * 0.3048**2 == pytest.approx(abs(area), rel=0.04)


def test_drawing_by_layer_and_unit(book: Path, capsys: Captured) -> None:
    """A layer is asked for where there are several, a unit where there is none."""
    assert bring(book, "d.dxf", drawing(), *FIELD) == 2
    assert "GREEN (1)" in capsys.readouterr().err
    assert bring(book, "d.dxf", drawing(0), *FIELD, "--layer", "GREEN") == 2
    assert "names no unit" in capsys.readouterr().err
    assert bring(book, "d.dxf", drawing(0), *FIELD, "--layer", "GREEN", "--unit", "us-ft") == 0

    assert area_ft2(book) == pytest.approx(6000 * (1200 / 3937 / 0.3048) ** 2)


def test_keep_outs_are_added_by_name(book: Path) -> None:
    """A bunker from a drawing, then two heads from points; the same names take their places."""
    bring(book, "d.dxf", drawing(), *FIELD, "--layer", "GREEN")
    layer = ("--surface", "F9", "--as", "keep-outs", "--layer", "BUNKER", "--clearance", "2 ft")
    assert bring(book, "d.dxf", drawing(), *layer) == 0
    assert main(["plan", "layout", str(book), "--surface", "F9", "--sand-slits", "4ft"]) == 0

    length_ft = sum(line.length_nm for line in latest(book, SURFACE).lines) / FT
    assert length_ft * 4 == pytest.approx(6000 - pi * 12**2, rel=0.01)
    assert bring(book, "d.dxf", drawing(), *layer) == 0
    assert [one.name for one in latest(book, LAYOUT).keep_outs] == ["BUNKER 1"]
    assert bring(book, "d.dxf", drawing(), *layer, "--instead") == 0
    assert len(latest(book, LAYOUT).keep_outs) == 1


def test_points_become_round_keep_outs(book: Path, capsys: Captured) -> None:
    """Sprinkler heads surveyed as points keep lines off by their radius and clearance."""
    data = text(feature(polygon(SQUARE), "nine"))
    bring(book, "nine.geojson", data, *FIELD)
    head = feature({"type": "Point", "coordinates": [7.0005, 45.0005]}, "head 1")
    words = ("--surface", "F9", "--as", "keep-outs", "--clearance", "6 in")

    assert bring(book, "heads.geojson", text(collection(head)), *words) == 2
    told = capsys.readouterr().err
    assert "The point head 1 of heads.geojson, at east " in told
    assert "(--radius 8in)" in told
    assert bring(book, "heads.geojson", text(collection(head)), *words, "--radius", "3 in") == 0
    assert latest(book, LAYOUT).keep_outs[0].name == "head 1"


KEEP_OUTS = ("--surface", "F9", "--as", "keep-outs")


def with_field(book: Path, capsys: Captured) -> None:
    """A field of 60 by 100 ft in the book."""
    assert bring(book, "walk.csv", "x,y\n0,0\n60,0\n60,100\n0,100\n0,0\n", *FIELD) == 0
    capsys.readouterr()


def names(book: Path) -> list[str]:
    """Names of the keep-outs in the book."""
    return [one.name for one in latest(book, LAYOUT).keep_outs]


def test_points_of_a_table_without_a_radius_are_named_each(book: Path, capsys: Captured) -> None:
    """Heads that were walked: none vanishes; one radius serves all, and one is left out by name."""
    with_field(book, capsys)
    page = "point,x,y\nH1,10,10\nH2,50,10\nold valve,30,80\n"

    assert bring(book, "heads.csv", page, *KEEP_OUTS) == 2
    told = capsys.readouterr().err
    for name, at in (("H1", "10.00 ft, 10.00 ft"), ("H2", "50.00"), ("old valve", "30.00")):
        assert re.search(f"The point {name} of heads.csv, at .*{at}", told)
    assert 'left out by its name (--leave-out "old valve")' in told
    assert latest(book, LAYOUT).keep_outs == ()
    words = ("--radius", "8in", "--leave-out", "old valve")
    assert bring(book, "heads.csv", page, *KEEP_OUTS, *words) == 0
    assert names(book) == ["H1", "H2"]


def test_points_and_lines_of_a_drawing_are_not_lost(book: Path, capsys: Captured) -> None:
    """A layer with a pond, two heads, a cable and a text: nothing goes without its name."""
    with_field(book, capsys)
    made = new("R2010")
    made.header["$INSUNITS"] = 2
    space, on = made.modelspace(), {"layer": "K"}
    space.add_circle((30, 50), 10, dxfattribs=on)
    space.add_point((10, 10), dxfattribs=on)
    space.add_point((50, 90), dxfattribs=on)
    space.add_text("pond", dxfattribs=on)
    space.add_line((0, 5), (60, 5), dxfattribs=on)
    stream = StringIO()
    made.write(stream)
    data = stream.getvalue().encode()

    assert bring(book, "k.dxf", data, *KEEP_OUTS, "--radius", "6in") == 2
    told = capsys.readouterr().err
    assert "k.dxf draws 5 things and 4 of them become keep-outs; these would be lost: TEXT." in told
    out = ("--radius", "6in", "--leave-out", "TEXT", "--leave-out")
    assert bring(book, "k.dxf", data, *KEEP_OUTS, *out, "K 2") == 0
    assert names(book) == ["K 1", "K point 1", "K point 2"]
    assert bring(book, "k.dxf", data, *KEEP_OUTS, *out, "K 9") == 2
    told = capsys.readouterr().err
    assert "K 9 was to be left out, and k.dxf draws nothing of that name." in told


def test_a_keep_out_drawn_somewhere_else_is_refused(book: Path, capsys: Captured) -> None:
    """Metres for feet: the pond would lie 40 m off the field and keep nothing away."""
    with_field(book, capsys)
    page = "x,y\n200,10\n220,10\n220,30\n200,30\n200,10\n"

    assert bring(book, "pond.csv", page, *KEEP_OUTS) == 2
    told = capsys.readouterr().err
    assert "does not touch F9: it begins at east 60.960 m" in told
    assert "its nearest edge is 140.0 ft away. Accepted: " in told


def test_every_outline_that_is_none_is_told(book: Path, capsys: Captured) -> None:
    """Two bow ties and a sound one: both faults, both mended ones offered in files of their own."""
    with_field(book, capsys)
    bows = [(n, x, y) for n in (1, 2) for x, y in ((5, 5), (9, 9), (9, 5), (5, 8), (5, 5))]
    page = "outline,x,y\n" + "".join(f"bow {n},{x + 20 * n},{y}\n" for n, x, y in bows)
    page += "pond,5,50\npond,9,50\npond,9,54\npond,5,50\n"

    assert bring(book, "bows.csv", page, *KEEP_OUTS) == 2
    told = capsys.readouterr().err
    assert told.count("side 1 (from corner 1) meets side 3") == 2
    assert sorted(path.name for path in (book.parent / "out").iterdir()) == [
        "bows.1.mended.csv",
        "bows.2.mended.csv",
    ]
    assert bring(book, "bows.csv", page, *KEEP_OUTS, "--mended") == 0
    assert names(book) == ["bow 1", "bow 2", "pond"]


def test_what_an_outline_file_draws_besides_is_told(book: Path, capsys: Captured) -> None:
    """A head beside the green in the same file is not used, and that is said."""
    head = feature({"type": "Point", "coordinates": [7.0005, 45.0005]}, "head 1")
    data = text(collection(feature(polygon(SQUARE), "nine"), head))

    assert bring(book, "nine.geojson", data, *FIELD) == 0
    assert "Not used: head 1." in capsys.readouterr().out


def test_a_course_that_is_not_as_long_as_its_design_is_refused(
    book: Path, capsys: Captured
) -> None:
    """A line of 62 ft for a collector of 60 ft; one of 61 ft is within a foot."""
    course = ("--as", "collector", "--collector", "C1", "--layer", "P")
    for length, code in ((62, 2), (61, 0)):
        made = new("R2010")
        made.header["$INSUNITS"] = 2
        ends = [(0, -2), (length, -2)]
        made.modelspace().add_lwpolyline(ends, dxfattribs={"layer": "P"})
        stream = StringIO()
        made.write(stream)
        assert bring(book, "c.dxf", stream.getvalue(), *course) == code
    told = capsys.readouterr().err
    assert "C1 is 60.0 ft long by its design and 62.0 ft along its course. Accepted: " in told


def test_concave_field_with_a_pond(book: Path) -> None:
    """A U of 90 by 60 ft with a pond of 20 by 20 ft: arms and pond part 36 + 20 lines."""
    u_shape = "0,0 90,0 90,60 60,60 60,24 30,24 30,60 0,60 0,0"
    pond = "30,2 50,2 50,22 30,22 30,2"
    page = "x,y\n" + u_shape.replace(" ", "\n")
    bring(book, "u.csv", page, *FIELD)
    bring(
        book, "pond.csv", "x,y\n" + pond.replace(" ", "\n"), "--surface", "F9", "--as", "keep-outs"
    )
    slits = ("--surface", "F9", "--sand-slits", "1ft", "--sand-bearing", "90")

    assert main(["plan", "layout", str(book), *slits, "--piped-slits", "4ft"]) == 0

    surface, layout = latest(book, SURFACE), latest(book, LAYOUT)
    sand = [line for line in surface.lines if line.use == "sand_slit"]
    assert sum(line.length_nm for line in sand) == (90 * 60 - 30 * 36 - 20 * 20) * FT
    assert sum(line.line_id.endswith("b") for line in sand) == 36 + 20
    assert layout.crossings > 1000


def test_course_of_a_collector(book: Path, capsys: Captured) -> None:
    """A course of 60 ft is as long as the design; the surface that drains there gets its joints."""
    bring(book, "d.dxf", drawing(), *FIELD, "--layer", "GREEN", "--drains-to", "C1")
    slits = ("--surface", "F9", "--piped-slits", "12ft", "--piped-bearing", "0")
    main(["plan", "layout", str(book), *slits])
    course = ("--as", "collector", "--collector", "C1", "--layer", "PIPE")

    assert bring(book, "d.dxf", drawing(), *course) == 0
    assert "Lay out F9 again" in capsys.readouterr().out
    assert main(["plan", "layout", str(book), "--surface", "F9"]) == 0
    assert [end.station_nm // FT for end in latest(book, LAYOUT).ends] == [6, 18, 30, 42, 54]


def test_mended_outline_is_offered_and_taken_only_when_asked(book: Path, capsys: Captured) -> None:
    """A bow tie: told where, offered in a file to look at, written only with --mended."""
    page = "x,y\n0,0\n60,60\n60,0\n0,40\n0,0\n"
    before = latest(book, SURFACE)

    assert bring(book, "bow.csv", page, *FIELD) == 2
    told = capsys.readouterr().err
    assert "side 1 (from corner 1) meets side 3" in told
    assert "kept the largest of 2 parts" in told
    assert latest(book, SURFACE) is before is None
    offered = (book.parent / "out" / "bow.mended.csv").read_text("utf-8")
    assert bring(book, "looked.csv", offered, *FIELD) == 0
    looked = latest(book, SURFACE).outline
    assert bring(book, "bow.csv", page, *FIELD, "--mended") == 0
    assert latest(book, SURFACE).outline == looked
    assert latest(book, LAYOUT).source == "bow.csv, mended"


def test_json_tells_what_was_written(book: Path, capsys: Captured) -> None:
    """Facts for machines: how many entries, the surface, the layout, remarks."""
    assert bring(book, "d.dxf", drawing(), *FIELD, "--layer", "GREEN", "--json") == 0

    told = json.loads(capsys.readouterr().out)
    assert (told["written"], told["surface"]["surface_id"], told["remarks"]) == (2, "F9", [])


def test_turned_baseline_keeps_its_shape(book: Path) -> None:
    """A bearing turns the outline about the origin, clockwise from north."""
    page = "station,left,right\n0,0,30\n100,0,30\n"
    bring(book, "base.csv", page, *FIELD, "--bearing", "60", "--origin", "5 ft, 7 ft")

    corners = [(one.x_nm / FT - 5, one.y_nm / FT - 7) for one in latest(book, SURFACE).outline]
    far = (100 * sin(radians(60)), 100 * cos(radians(60)))
    assert any(corner == pytest.approx(far, abs=1e-6) for corner in corners)
