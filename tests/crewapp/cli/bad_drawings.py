"""Malformed outlines, keep-outs and courses: file name, contents, words, and what is said."""

from __future__ import annotations

from typing import Any

from tests.models.readers.outlines.geo_text import SQUARE, collection, feature, polygon, text

FIELD = ("--surface", "F9", "--name", "Field nine", "--use", "field")
KEEP_OUTS = ("--surface", "F9", "--as", "keep-outs")
COURSE = ("--as", "collector", "--collector", "C1")
GREEN = ("--layer", "GREEN")

BOW = [[7.0, 45.0], [7.001, 45.001], [7.001, 45.0], [7.0, 45.001], [7.0, 45.0]]
TINY = [[7.0, 45.0], [7.000001, 45.0], [7.000001, 45.000001], [7.0, 45.000001], [7.0, 45.0]]


def geo(geometry: Any, name: str = "nine") -> str:
    """A file of one feature."""
    return text(collection(feature(geometry, name)))


def line(*points: list[float]) -> dict[str, Any]:
    """A course."""
    return {"type": "LineString", "coordinates": list(points)}


SQUARE_CSV = "x,y\n0,0\n60,0\n60,60\n0,60\n0,0\n"
Bad = tuple[str, str | bytes, tuple[str, ...], str]

FILES: dict[str, Bad] = {
    # tables of points
    "empty table": ("a.csv", "", FIELD, "x, y"),
    "header alone": ("a.csv", "x,y\n", FIELD, "header alone"),
    "no column y": ("a.csv", "x,z\n1,2\n", FIELD, "'z'"),
    "a word for a length": ("a.csv", "x,y\n0,0\n60,sixty\n60,60\n0,0\n", FIELD, "row 3, y"),
    "a decimal comma": ("a.csv", "x;y\n0;0\n60,5;0\n60;60\n0;0\n", FIELD, "row 3, x"),
    "two points": ("a.csv", "x,y\n0,0\n60,0\n0,0\n", FIELD, "at least 3"),
    "all on one point": ("a.csv", "x,y\n5,5\n5,5\n5,5\n5,5\n", FIELD, "1 different point"),
    "open": ("a.csv", "x,y\n0,0\n60,0\n60,60\n", FIELD, "it is open"),
    "crosses itself": ("a.csv", "x,y\n0,0\n60,60\n60,0\n0,40\n0,0\n", FIELD, "meets side 3"),
    "clockwise": ("a.csv", "x,y\n0,0\n0,60\n60,60\n60,0\n0,0\n", FIELD, "it runs clockwise"),
    "tiny": ("a.csv", "x,y\n0,0\n1,0\n1,1\n0,1\n0,0\n", FIELD, "check the unit"),
    "on one line": ("a.csv", "x,y\n0,0\n30,0\n60,0\n0,0\n", FIELD, "meets side"),
    "a point twice": ("a.csv", "x,y\n0,0\n60,0\n60,0\n60,60\n0,60\n0,0\n", FIELD, "lies on point"),
    "too far": ("a.csv", "x,y\n0,0\n99999999,0\n0,99999999\n0,0\n", FIELD, "farther than 4,500 km"),
    "two outlines": (
        "a.csv",
        "outline,x,y\nA,0,0\nA,60,0\nA,0,60\nA,0,0\nB,0,0\nB,9,0\nB,0,9\nB,0,0\n",
        FIELD,
        "Pick one by its name; there are: A, B",
    ),
    "none of that name": ("a.csv", SQUARE_CSV, (*FIELD, "--pick", "west"), "named west"),
    "a unit that tables lack": ("a.csv", SQUARE_CSV, (*FIELD, "--unit", "km"), "not read in km"),
    "a layer of a table": ("a.csv", SQUARE_CSV, (*FIELD, *GREEN), "has no layers"),
    "a workbook": ("a.csv", b"PK\x03\x04\x00\xff\xfe", FIELD, "not as a workbook"),
    "an unknown ending": ("a.shp", SQUARE_CSV, FIELD, "its name ends in .shp"),
    "no ending": ("outline", SQUARE_CSV, FIELD, "ends in nothing"),
    # baselines
    "one station": ("b.csv", "station,left,right\n0,10,10\n", FIELD, "needs 2 or more"),
    "stations that shrink": (
        "b.csv", "station,left,right\n50,10,10\n0,10,10\n", FIELD, "stations grow",
    ),
    "no offset": ("b.csv", "station,left,right\n0,10,10\n50,,\n", FIELD, "no offset"),
    "edges that change sides": (
        "b.csv", "station,left,right\n0,10,10\n50,-20,5\n", FIELD, "to the right of the right",
    ),
    "a bad station": ("b.csv", "station,left,right\n0+7x,9,9\n1+00,9,9\n", FIELD, "row 2, station"),
    "a bad origin": (
        "b.csv", "station,left,right\n0,9,9\n50,9,9\n", (*FIELD, "--origin", "here"),
        "east and north",
    ),
    "a bad bearing": (
        "b.csv", "station,left,right\n0,9,9\n50,9,9\n", (*FIELD, "--bearing", "up"), "a bearing",
    ),
    # GeoJSON
    "no JSON": ("c.geojson", "{", FIELD, "line 1"),
    "a list": ("c.geojson", "[]", FIELD, "the file"),
    "no type": ("c.geojson", "{}", FIELD, "these are read"),
    "no features": ("c.geojson", text(collection()), FIELD, "a list of features"),
    "a lone point": (
        "c.geojson", geo({"type": "Point", "coordinates": [7, 45]}), FIELD, "draws 0 of that kind",
    ),
    "a latitude of 95": (
        "c.geojson", geo(polygon([[7, 95], [7.1, 95], [7.1, 95.1], [7, 95]])), FIELD, "95",
    ),
    "words for numbers": (
        "c.geojson", geo(polygon([["7", 45], [7, 45], [7, 46], ["7", 45]])), FIELD, "coordinates",
    ),
    "another map grid": (
        "c.geojson",
        text({**collection(feature(polygon(SQUARE))), "crs": {"type": "name", "properties": {
            "name": "EPSG:2249"}}}),
        FIELD,
        "longitude and latitude (WGS 84)",
    ),
    "a bow tie": ("c.geojson", geo(polygon(BOW)), FIELD, "may not cross or touch itself"),
    "a clockwise ring": ("c.geojson", geo(polygon(SQUARE[::-1])), FIELD, "it runs clockwise"),
    "an open ring": ("c.geojson", geo(polygon(SQUARE[:-1])), FIELD, "it is open"),
    "a tiny field": ("c.geojson", geo(polygon(TINY)), FIELD, "check the unit"),
    "a field half a world wide": (
        "c.geojson", geo(polygon([[0, 45], [90, 45], [90, 46], [0, 45]])), FIELD, "too far",
    ),
    "a hole that crosses itself": ("c.geojson", geo(polygon(SQUARE, BOW[::-1])), FIELD, "hole 1"),
    "a unit of GeoJSON": (
        "c.geojson", geo(polygon(SQUARE)), (*FIELD, "--unit", "ft"), "is in degrees",
    ),
    "a plane of one figure": (
        "c.geojson", geo(polygon(SQUARE)), (*FIELD, "--plane", "45"), "a latitude and longitude",
    ),
    "a plane off the Earth": (
        "c.geojson", geo(polygon(SQUARE)), (*FIELD, "--plane", "95, 7"), "beyond 90 degrees",
    ),
    "a plane far away": (
        "c.geojson", geo(polygon(SQUARE)), (*FIELD, "--plane", "10, 7"), "too far",
    ),
    # drawings
    "no drawing": ("d.dxf", "", FIELD, "give a drawing saved as DXF"),
    "a picture": ("d.dxf", b"\x89PNG\r\n", FIELD, "save it anew as DXF"),
    "a drawing of nothing": ("d.dxf", b"0\nEOF\n", (*FIELD, *GREEN), "no entity on layer"),
    # keep-outs and courses
    "no keep-out": ("e.geojson", geo(line([7, 45], [7.001, 45])), KEEP_OUTS, "closed outlines"),
    "keep-outs of no surface": ("e.csv", SQUARE_CSV, KEEP_OUTS, "no surface F9"),
    "a clearance below nothing": (
        "e.csv", SQUARE_CSV, (*KEEP_OUTS, "--clearance=-3in"), "minus sign",
    ),
    "no course": ("f.geojson", geo(polygon(SQUARE)), COURSE, "draws 0 of that kind"),
    "two courses": (
        "f.geojson",
        text(collection(*(feature(line([7, 45], [7.001, y]), f"L{y}") for y in (45, 45.001)))),
        COURSE,
        "there are: L45, L45.001",
    ),
    "a course of nothing": (
        "f.geojson", geo(line([7, 45], [7.001, 45])), ("--as", "collector"), "--collector C1",
    ),
    "a course of a collector nobody has": (
        "f.geojson", geo(line([7, 45], [7.001, 45])), ("--as", "collector", "--collector", "C9"),
        "no collector C9",
    ),
    # what it is for
    "nobody's outline": ("g.csv", SQUARE_CSV, (), "--surface G9"),
    "a new surface without a name": ("g.csv", SQUARE_CSV, ("--surface", "F9"), "no surface F9"),
    "a setback in words": (
        "g.csv", SQUARE_CSV, (*FIELD, "--setback", "deep"), "Cannot read 'deep'",
    ),
}  # fmt: skip
