"""GeoJSON by RFC 7946, read back by GDAL and measured on the ellipsoid by pyproj."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from pyogrio.errors import DataSourceError
from pyproj import Geod

from sync.papers.asbuilt.features.refusals import NotTiedError
from sync.papers.asbuilt.geodata.geojson import build_geojson
from tests.sync.papers.asbuilt.reading_back import features_in, positions
from tests.sync.papers.asbuilt.small_green import CUT_FT, ORIGIN, green

EARTH = Geod(ellps="WGS84")
FT_M = 0.3048


@pytest.fixture(scope="module")
def written() -> dict[str, Any]:
    """The file as plain JSON."""
    return dict(json.loads(build_geojson(green())))


def of_layer(written: dict[str, Any], name: str) -> list[dict[str, Any]]:
    """Features of one layer."""
    return [one for one in written["features"] if one["properties"]["layer"] == name]


def test_another_reader_finds_every_feature(written: dict[str, Any], tmp_path: Path) -> None:
    """GDAL reads as many features as were written, and the cut length of the book."""
    path = tmp_path / "a.geojson"
    path.write_bytes(build_geojson(green()))
    found = features_in(path)

    assert len(found) == len(written["features"])
    assert sum(one["cut_length_ft"] for one in found if one["layer"] == "lines") == CUT_FT


def test_lengths_on_the_ellipsoid_are_those_of_the_plan(written: dict[str, Any]) -> None:
    """Each line is within 0.1 % of its planned length, by pyproj."""
    lines = [one for one in of_layer(written, "lines") if one["geometry"]]
    for one in lines:
        (lon1, lat1), (lon2, lat2) = one["geometry"]["coordinates"]
        metres = EARTH.inv(lon1, lat1, lon2, lat2)[2]

        assert metres == pytest.approx(one["properties"]["planned_length_ft"] * FT_M, rel=1e-3)
    assert len(lines) == 6


def test_line_lies_where_the_origin_says(written: dict[str, Any]) -> None:
    """S4 begins 16 ft due north of the origin, by pyproj."""
    line = next(o for o in of_layer(written, "lines") if o["properties"]["line_id"] == "S4")
    lon, lat = line["geometry"]["coordinates"][0]
    origin = ORIGIN["lon_ndeg"] / 1e9, ORIGIN["lat_ndeg"] / 1e9
    turn, _, metres = EARTH.inv(*origin, lon, lat)

    assert abs(turn) < 0.05
    assert metres == pytest.approx(16 * FT_M, abs=0.002)


def test_outer_rings_turn_left_and_holes_right(written: dict[str, Any]) -> None:
    """The outline was drawn clockwise; the file has it counterclockwise, its rings closed."""
    (surface,), (kept_out,) = of_layer(written, "surfaces"), of_layer(written, "keep_outs")
    outer, hole = kept_out["geometry"]["coordinates"]
    areas = [
        EARTH.polygon_area_perimeter([lon for lon, _ in ring], [lat for _, lat in ring])[0]
        for ring in (*surface["geometry"]["coordinates"], outer, hole)
    ]

    assert all(ring[0] == ring[-1] for ring in (outer, hole))
    assert [area > 0 for area in areas] == [True, True, False]
    assert areas[0] == pytest.approx(800 * FT_M**2, rel=1e-3)


def test_file_keeps_to_the_standard(written: dict[str, Any]) -> None:
    """No reference system but WGS 84, no level passed off as a height, at most 8 decimals."""
    numbers = [
        number
        for one in of_layer(written, "inverts") + of_layer(written, "probes")
        for number in one["geometry"]["coordinates"]
    ]
    west, south, east, north = written["bbox"]

    assert "crs" not in written
    assert all(len(one["geometry"]["coordinates"]) == 2 for one in of_layer(written, "inverts"))
    assert all(round(number, 8) == number for number in numbers)
    assert (west < east, south < north) == (True, True)
    assert len({one["id"] for one in written["features"]}) == len(written["features"])


def test_what_has_no_place_is_there_without_one(written: dict[str, Any]) -> None:
    """A line on no plan, what was found or seen in words, a photo: listed without geometry."""
    placeless = [one["id"].rsplit("-", 1)[0] for one in written["features"] if not one["geometry"]]

    assert sorted(placeless) == [*("lines", "outlets", "photos", "points", "ties", "utilities")]


def test_struck_reading_is_in_its_own_layer(written: dict[str, Any]) -> None:
    """The slip of 19 in is marked as struck, with the reason; probes do not have it."""
    (struck, *_), probes = of_layer(written, "struck"), of_layer(written, "probes")

    assert (struck["properties"]["how"], struck["properties"]["reason"]) == ("struck", "Green 1")
    assert 19.0 not in {one["properties"]["depth_in"] for one in probes}


def test_job_that_is_tied_to_nothing_is_refused() -> None:
    """A local plane must not be passed off as longitude and latitude."""
    with pytest.raises(NotTiedError, match="origin of this job's plane"):
        build_geojson(green(is_tied=False))


def test_reader_refuses_a_spoilt_file(tmp_path: Path) -> None:
    """The reader that finds all well does not find it in half a file."""
    path = tmp_path / "half.geojson"
    data = build_geojson(green())
    path.write_bytes(data[: len(data) // 2])

    with pytest.raises(DataSourceError, match="Unterminated"):
        features_in(path)


def test_positions_are_read_as_written(written: dict[str, Any], tmp_path: Path) -> None:
    """GDAL's numbers are those of the file."""
    path = tmp_path / "a.geojson"
    path.write_bytes(build_geojson(green()))
    (surface,) = [one for one in features_in(path) if one["layer"] == "surfaces"]
    ring = of_layer(written, "surfaces")[0]["geometry"]["coordinates"][0]

    assert [list(at) for at in positions(surface["shape"])] == ring
