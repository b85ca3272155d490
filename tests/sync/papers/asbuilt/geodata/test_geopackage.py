"""The GeoPackage, opened by GDAL and by plain SQLite."""

from __future__ import annotations

import sqlite3
import struct
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from pyogrio import list_layers, read_info
from pyproj import CRS, Transformer

from sync.papers.asbuilt.geodata.geopackage import build_geopackage
from tests.sync.papers.asbuilt.reading_back import features_in, positions
from tests.sync.papers.asbuilt.small_green import CUT_FT, ORIGIN, green

FT_M = 0.3048


@pytest.fixture(scope="module")
def package(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The green as a file."""
    path = tmp_path_factory.mktemp("gpkg") / "a.gpkg"
    path.write_bytes(build_geopackage(green()))
    return path


@pytest.fixture
def database(package: Path) -> Iterator[sqlite3.Connection]:
    """The file as a plain database."""
    with closing(sqlite3.connect(package)) as connection:
        yield connection


def test_bounds_before_each_shape_are_those_of_its_places(database: sqlite3.Connection) -> None:
    """By the standard's head of 8 bytes and four little-endian numbers, read by hand."""
    blobs = [blob for (blob,) in database.execute("SELECT geom FROM lines") if blob]
    for blob in blobs:
        magic, _, flags, _ = struct.unpack("<2sBBi", blob[:8])
        west, east, south, north = struct.unpack("<4d", blob[8:40])
        _, _, count = struct.unpack("<BII", blob[40:49])
        ways = struct.unpack(f"<{2 * count}d", blob[49:])

        assert (magic, flags) == (b"GP", 0b011)
        assert (west, east) == (min(ways[::2]), max(ways[::2]))
        assert (south, north) == (min(ways[1::2]), max(ways[1::2]))
    assert len(blobs) == 6


def test_another_reader_finds_every_layer(package: Path) -> None:
    """GDAL lists a table for each layer, each with its kind of geometry."""
    kinds = dict(list_layers(package).tolist())

    assert kinds["surfaces"] == "Polygon"
    assert kinds["lines"] == "LineString"
    assert kinds["collectors_laid"] == "LineString Z"
    assert kinds["inverts"] == "Point Z"
    assert kinds["photos"] is None
    assert {"keep_outs", "probes", "joints", "released", "ties", "struck", "about"} <= set(kinds)


def test_lengths_and_totals_read_back(package: Path) -> None:
    """Lines are as long as planned, to the nanometre; their cut lengths add up to the book's."""
    lines = features_in(package, "lines")

    assert sum(one["cut_length_ft"] for one in lines) == CUT_FT
    for one in lines:
        if one["shape"] is not None:
            planned = one["planned_length_ft"] * FT_M
            assert one["shape"].length == pytest.approx(planned, abs=1e-9)


def test_surface_has_its_area_and_keep_out_its_hole(package: Path) -> None:
    """40 x 20 ft, and 8 ft2 less the half square foot of its island."""
    (surface,), (kept_out,) = features_in(package, "surfaces"), features_in(package, "keep_outs")

    assert surface["shape"].area == pytest.approx(800 * FT_M**2)
    assert kept_out["shape"].area == pytest.approx(7.5 * FT_M**2)
    assert surface["shape"].exterior.is_ccw


def test_inverts_carry_their_levels(package: Path) -> None:
    """Third numbers are metres above the job's datum."""
    levels = [at[2] for one in features_in(package, "inverts") for at in positions(one["shape"])]

    assert levels == pytest.approx([ft * FT_M for ft in (100, 100.1, 100.45, 100.5)])


def test_file_says_what_it_is(database: sqlite3.Connection) -> None:
    """Application id, version, sound pages, sound references: what the standard asks first."""

    def asked(words: str) -> list[object]:
        return [row[0] for row in database.execute(words)]

    assert asked("PRAGMA application_id") == [0x47504B47]
    assert asked("PRAGMA user_version") == [10300]
    assert asked("PRAGMA integrity_check") == ["ok"]
    assert list(database.execute("PRAGMA foreign_key_check")) == []
    assert {-1, 0, 4326} <= set(asked("SELECT srs_id FROM gpkg_spatial_ref_sys"))


def test_file_does_not_tell_which_library_wrote_it() -> None:
    """Bytes 96 to 99 would name it, and differ from tablet to tablet (SQLite's file format)."""
    assert build_geopackage(green())[96:100] == bytes(4)


def test_every_table_is_in_the_contents(database: sqlite3.Connection) -> None:
    """No table is left for a reader to stumble on, and bounds are those of the shapes."""
    tables = {
        row[0]
        for row in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        if not row[0].startswith(("gpkg_", "sqlite_"))
    }
    listed = {row[0] for row in database.execute("SELECT table_name FROM gpkg_contents")}
    box = database.execute(
        "SELECT min_x, min_y, max_x, max_y FROM gpkg_contents WHERE table_name = 'surfaces'"
    ).fetchone()

    assert tables == listed
    assert box == pytest.approx((0, 0, 40 * FT_M, 20 * FT_M))


def test_readers_know_where_the_plane_lies(package: Path) -> None:
    """PROJ takes the file's own system and finds the origin where the book has it."""
    system = CRS.from_wkt(read_info(package, layer="lines")["crs"])
    lon, lat = Transformer.from_crs(system, "EPSG:4326", always_xy=True).transform(0, 0)

    assert lon == pytest.approx(ORIGIN["lon_ndeg"] / 1e9, abs=1e-9)
    assert lat == pytest.approx(ORIGIN["lat_ndeg"] / 1e9, abs=1e-9)


def test_untied_job_claims_no_place(tmp_path: Path) -> None:
    """Without an origin the system is the unknown plane, and lengths are right all the same."""
    path = tmp_path / "local.gpkg"
    path.write_bytes(build_geopackage(green(is_tied=False)))
    (said,) = [one for one in features_in(path, "about") if one["item"] == "plane"]

    assert "not tied" in said["said"]
    assert "Undefined" in str(read_info(path, layer="lines")["crs"])
    assert sum(one["cut_length_ft"] for one in features_in(path, "lines")) == CUT_FT
