"""GeoJSON into the local plane: right to the ellipsoid, and every fault in a sentence."""

from __future__ import annotations

import pyproj
import pytest

from models.errors import OutlineError, PlanFileError
from models.readers.outlines.geojson import read_geojson
from models.readers.outlines.read_shapes import ground_of
from models.science.layout.cuttable_ground import open_shape
from models.science.shapes.outline import OutlineFaultKind, find_outline_faults, require_outline
from models.science.shapes.projection import LocalProjection
from tests.models.readers.outlines.geo_text import HOLE, SQUARE, collection, feature, polygon, text


def test_area_and_length_of_a_field_are_those_of_the_ellipsoid() -> None:
    """Right to 0.1 % against geodesics; the margin used is a hundredth of that."""
    found = read_geojson(text(polygon(SQUARE)))
    sound = require_outline(found.shapes[0].edge)
    lons, lats = zip(*SQUARE, strict=True)
    area, length = pyproj.Geod(ellps="WGS84").polygon_area_perimeter(lons, lats)

    assert float(sound.area_nm2) / 1e18 == pytest.approx(area, rel=1e-5)
    assert sound.perimeter_nm / 1e9 == pytest.approx(length, rel=1e-5)


def test_the_plane_begins_in_the_middle_and_is_stated() -> None:
    """To a millionth of a degree, in the notation of PROJ."""
    plane = read_geojson(text(polygon(SQUARE))).projection

    assert plane == LocalProjection(7_000_500_000, 45_000_500_000)
    assert plane.proj_text.startswith("+proj=tmerc +lat_0=45.000500000 +lon_0=7.000500000 +k=1")


def test_a_second_file_is_read_into_the_same_plane() -> None:
    """With the plane of the first, the same place is the same point."""
    first = read_geojson(text(polygon(SQUARE)))
    second = read_geojson(text({"type": "Point", "coordinates": SQUARE[2]}), first.projection)

    assert second.points[0].at == first.shapes[0].edge.points[2]


def test_holes_become_keep_outs() -> None:
    """A hole that runs clockwise in the file is an outline of its own, with a clearance."""
    shapes = read_geojson(text(feature(polygon(SQUARE, HOLE), "Green 7"))).shapes
    ground = ground_of(shapes, clearance_nm=10**9)

    assert shapes[0].name == "Green 7"
    assert [keep_out.clearance_nm for keep_out in ground.keep_outs] == [10**9]
    assert (
        open_shape(ground).area < ground.outlines[0].area_nm2 - ground.keep_outs[0].outline.area_nm2
    )


def test_a_hole_wound_the_other_way_is_told() -> None:
    """It bounds the same ground; the remark names it."""
    found = read_geojson(text(feature(polygon(SQUARE, HOLE[::-1]), "Green 7")))

    assert "Hole 1 of Green 7" in found.remarks[0]
    assert ground_of(found.shapes).keep_outs


def test_all_geometries_are_read() -> None:
    """Polygons, lines and points, alone, several, and in a collection."""
    line = {"type": "LineString", "coordinates": SQUARE[:3]}
    many = [
        {"type": "MultiPolygon", "coordinates": [[SQUARE], [SQUARE]]},
        {"type": "MultiLineString", "coordinates": [SQUARE[:2], SQUARE[2:4]]},
        {"type": "MultiPoint", "coordinates": SQUARE[:2]},
        {"type": "GeometryCollection", "geometries": [line, polygon(SQUARE)]},
        {"type": "Point", "coordinates": [7, 45, 312.5]},
    ]
    found = read_geojson(text(collection(*[feature(one) for one in many], feature(None))))

    assert [shape.name for shape in found.shapes] == [
        "feature 1 part 1",
        "feature 1 part 2",
        "feature 4",
    ]
    assert [len(path.points) for path in found.paths] == [2, 2, 3]
    assert len(found.points) == 3
    assert found.remarks == (
        "Feature 6 has no geometry and was left out.",
        "1 height was left out.",
    )


def test_a_field_on_the_date_line_is_one_field() -> None:
    """Longitudes of 179.9999 and -179.9999 lie 22 m apart."""
    ring = [[179.9999, -17], [-179.9999, -17], [-179.9999, -16.9998], [179.9999, -16.9998]]
    found = read_geojson(text(polygon([*ring, ring[0]])))

    width = found.shapes[0].edge.points[1].x_nm - found.shapes[0].edge.points[0].x_nm
    assert width / 1e9 == pytest.approx(21.3, abs=0.1)


@pytest.mark.parametrize(
    ("ring", "kind"),
    [
        (SQUARE[:-1], OutlineFaultKind.OPEN),
        (SQUARE[::-1], OutlineFaultKind.WOUND),
        ([SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3], SQUARE[0]], OutlineFaultKind.CROSSING),
        (SQUARE[:2], OutlineFaultKind.TOO_FEW),
        ([*SQUARE[:2], SQUARE[1], *SQUARE[2:]], OutlineFaultKind.DUPLICATE),
    ],
)
def test_a_faulty_ring_is_read_and_judged_as_an_outline(
    ring: list[list[float]], kind: OutlineFaultKind
) -> None:
    """The file can be read; the outline is refused under the name of its feature."""
    found = read_geojson(text(feature(polygon(ring), "Green 7")))

    assert kind in {fault.kind for fault in find_outline_faults(found.shapes[0].edge)}
    with pytest.raises(OutlineError, match="outline Green 7"):
        ground_of(found.shapes)


LINE = {"type": "LineString", "coordinates": [[7, 45], [7, 45.001]]}
BAD: dict[str, tuple[str | bytes, str]] = {
    "nothing": ("", "line 1, column 1"),
    "no json": ("POLYGON((7 45))", "line 1, column 1"),
    "cut off": (text(polygon(SQUARE))[:-9], "line 1"),
    "not utf-8": (b'{"type": "\xff"}', "byte b'\\xff' at 11"),
    "too large": (" " * 20_000_001, "20000001 bytes"),
    "too deep": ("[" * 100, "brackets 25 deep at character 25"),
    "a million deep": ("[" * 1_000_000, "brackets 25 deep"),
    "not a number": ('{"type": "Point", "coordinates": [NaN, 45]}', "the number NaN"),
    "infinite": ('{"type": "Point", "coordinates": [7, -Infinity]}', "the number -Infinity"),
    "overflowing": ('{"type": "Point", "coordinates": [7, 1e999]}', "coordinates: [7, inf]"),
    "endless digits": (
        f'{{"type": "Point", "coordinates": [7, {"9" * 5000}]}}',
        "degrees as decimals",
    ),
    "huge whole": (f'{{"type": "Point", "coordinates": [7, {"9" * 400}]}}', "coordinates"),
    "a name twice": ('{"type": "Point", "type": "Point"}', "the member 'type' twice"),
    "a list": ("[]", "the file: list"),
    "a number": ("7", "the file: int"),
    "null": ("null", "NoneType"),
    "no type": ("{}", "type: nothing"),
    "a wrong type": (text({"type": "Circle"}), "type: 'Circle'; these are read: Point"),
    "a type that is a list": (text({"type": [1]}), "type: list"),
    "no features": (text({"type": "FeatureCollection"}), "features: nothing"),
    "features empty": (text(collection()), "features: list"),
    "features no list": (text({"type": "FeatureCollection", "features": {}}), "features: dict"),
    "too many features": (text(collection(*[0] * 2001)), "2001 features"),
    "a feature that is none": (text(collection(LINE)), "features[0]: 'LineString'"),
    "a feature that is text": (text(collection("x")), "features[0]: 'x'"),
    "no geometry at all": (text(collection(feature(None))), "no geometry"),
    "geometry a number": (text(feature(7)), "geometry.type: nothing"),
    "geometries missing": (text({"type": "GeometryCollection"}), "geometries: nothing"),
    "coordinates missing": (text({"type": "Polygon"}), "coordinates: NoneType"),
    "coordinates empty": (text({"type": "Polygon", "coordinates": []}), "an empty list"),
    "a ring empty": (text(polygon([])), "coordinates[0]: an empty list"),
    "a ring too shallow": (text(polygon([7, 45])), "coordinates[0][0]: int"),
    "a ring too deep": (text(polygon([SQUARE])), "coordinates[0][0]: 5 numbers"),
    "text for a number": (text(polygon([["7", 45]])), "coordinates[0][0]: ['7', 45]"),
    "true for a number": (text(polygon([[True, 45]])), "[True, 45]"),
    "one number": (text(polygon([[7]])), "1 number"),
    "four numbers": (text(polygon([[7, 45, 1, 2]])), "4 numbers"),
    "latitude beyond": (text(polygon([[7, 95]])), "latitude second, within 90"),
    "longitude beyond": (text(polygon([[200, 45]])), "longitude comes first, within 180"),
    "metres for degrees": (text(polygon([[500_000, 4_900_000]])), "within 180"),
    "far apart": (
        text(polygon([*SQUARE[:2], [9, 45]])),
        "longitude comes first",
    ),
    "swapped": (text(collection(feature(LINE), feature(polygon([[45, 7]])))), "too far"),
    "at the pole": (text(polygon([[7, 89], [7.1, 89], [7, 89.1]])), "too far"),
    "another system": (
        text({**LINE, "crs": {"type": "name", "properties": {"name": "EPSG:32632"}}}),
        "RFC 7946",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_what_can_not_be_read_is_said(name: str) -> None:
    """A sentence with the place, what was met and what would be read."""
    data, words = BAD[name]

    with pytest.raises(PlanFileError) as caught:
        read_geojson(data)

    assert words in str(caught.value)
    assert str(caught.value).startswith("Cannot read the GeoJSON, ")
    assert str(caught.value).endswith(".")
    assert str(caught.value).isprintable() or "\n" in str(caught.value)


def test_all_faults_are_told_the_first_twenty_in_words() -> None:
    """Thirty wrong positions: all on the context, twenty in the sentence."""
    with pytest.raises(PlanFileError) as caught:
        read_geojson(text(polygon([[7, 91]] * 30)))

    problems = caught.value.context["problems"]
    assert isinstance(problems, tuple)
    assert len(problems) == 30
    assert "30 faults" in str(caught.value)
    assert "and 10 more." in str(caught.value)


def test_positions_are_counted() -> None:
    """The hundred thousand and first is one too many, and is told once."""
    with pytest.raises(PlanFileError) as caught:
        read_geojson(text({"type": "LineString", "coordinates": [[7, 45]] * 100_010}))

    assert str(caught.value).count("one position too many") == 1


def test_a_name_is_made_plain() -> None:
    """Line breaks, control characters and half characters do not get into a name."""
    data = '{"type": "Feature", "properties": {"name": "G\\u00007\\n\\ud800 x"}, "geometry": '

    found = read_geojson(data + text(polygon(SQUARE)) + "}")

    assert found.shapes[0].name == "G7 x"


def test_far_and_unreadable_positions_are_told_together() -> None:
    """In a plane that stands already, one is no reason to keep quiet of the other."""
    far, bad = point([7.0, 5.0]), point(["7.0", 45.0])
    plane = LocalProjection(7 * 10**9, 45 * 10**9)

    with pytest.raises(PlanFileError) as caught:
        read_geojson(text(collection(feature(far, "far"), feature(bad, "bad"))), plane)

    told = str(caught.value)
    assert "2 faults" in told
    assert "features[0].geometry.coordinates" in told
    assert "features[1].geometry.coordinates" in told


def point(at: list[object]) -> dict[str, object]:
    """A geometry of one position."""
    return {"type": "Point", "coordinates": at}
