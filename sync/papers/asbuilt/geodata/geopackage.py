"""The as-built as one GeoPackage 1.3 file, written with the standard library alone.

Coordinates are the job's own plane in metres, where lengths are true. A job whose origin is
known gets that plane as a named system (a transverse Mercator at the origin), which readers
turn into any other; one whose origin is not known is said to be in no known system.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing

from models.science.shapes.projection import LocalProjection
from sync.papers.asbuilt.features.about import about_job, plane_words
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.geodata.geographic import WGS84, site_plane
from sync.papers.asbuilt.geodata.geopackage_shapes import box_of, shape_blob
from sync.papers.asbuilt.layers.layer_types import CellType, Layer, ShapeKind
from sync.papers.asbuilt.layers.survey_layers import layers_of
from sync.papers.tables.cells import Cell

APPLICATION_ID, USER_VERSION = 0x47504B47, 10300
UNKNOWN_PLANE, SITE_PLANE = -1, 100_000
_TYPES = {CellType.WORDS: "TEXT", CellType.COUNT: "INTEGER", CellType.NUMBER: "REAL"}
_TABLES = """
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY, organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL, column_name TEXT NOT NULL, geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
"""


def build_geopackage(job: AsBuilt) -> bytes:
    """Write the file: a table for each layer, and a table of facts about the job.

    A database made in memory does not note which version of the library wrote it, so that
    two tablets with two versions do not differ by that.
    """
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {USER_VERSION}")
        connection.executescript(_TABLES)
        connection.executemany(
            "INSERT INTO gpkg_spatial_ref_sys VALUES (?,?,?,?,?,?)", _systems(job.projection)
        )
        for layer in layers_of(job):
            _write_layer(connection, job, layer)
        _write_about(connection, job)
        connection.commit()
        return connection.serialize()


def _systems(projection: LocalProjection | None) -> Iterator[tuple[str, int, str, int, str, str]]:
    yield "Undefined Cartesian", -1, "NONE", -1, "undefined", "a plane of unknown place"
    yield "Undefined geographic", 0, "NONE", 0, "undefined", "unknown longitude and latitude"
    yield "WGS 84", 4326, "EPSG", 4326, WGS84, "longitude and latitude, degrees"
    if projection is not None:
        words = "transverse Mercator at the origin of the job's plane, scale 1, metres"
        yield "Plane of the site", SITE_PLANE, "NONE", SITE_PLANE, site_plane(projection), words


def _write_layer(connection: sqlite3.Connection, job: AsBuilt, layer: Layer) -> None:
    srs_id = SITE_PLANE if job.projection is not None else UNKNOWN_PLANE
    has_shapes = layer.kind is not ShapeKind.NONE
    shape = [f"geom {layer.kind.value.upper()}"] if has_shapes else []
    columns = [
        f'"{column.header}" {_TYPES[holds]}'
        for column, holds in zip(layer.columns, layer.holds, strict=True)
    ]
    listed = ", ".join(["fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL", *shape, *columns])
    connection.execute(f'CREATE TABLE "{layer.name}" ({listed})')
    _list_layer(connection, job, layer, srs_id)
    marks = ", ".join("?" * (len(columns) + len(shape)))
    names = ", ".join(['"geom"'] * has_shapes + [f'"{one.header}"' for one in layer.columns])
    connection.executemany(
        f'INSERT INTO "{layer.name}" ({names}) VALUES ({marks})',
        (
            [*([shape_blob(layer, row, srs_id)] if has_shapes else []), *map(_kept, row.cells)]
            for row in layer.rows
        ),
    )


def _list_layer(connection: sqlite3.Connection, job: AsBuilt, layer: Layer, srs_id: int) -> None:
    """Tell of a layer in the tables that readers look into first."""
    has_shapes = layer.kind is not ShapeKind.NONE
    boxes = [box_of(row) for row in layer.rows if row.shape is not None]
    bounds = [
        pick(box[side] for box in boxes) if boxes else None
        for pick, side in ((min, 0), (min, 2), (max, 1), (max, 3))
    ]
    connection.execute(
        "INSERT INTO gpkg_contents VALUES (?,?,?,?,?,?,?,?,?,?)",
        [
            layer.name,
            "features" if has_shapes else "attributes",
            layer.title,
            plane_words(job) if has_shapes else "",
            _changed(job),
            *bounds,
            srs_id if has_shapes else None,
        ],
    )
    if has_shapes:
        connection.execute(
            "INSERT INTO gpkg_geometry_columns VALUES (?,'geom',?,?,?,0)",
            [layer.name, layer.kind.value.upper(), srs_id, int(layer.has_levels)],
        )


def _write_about(connection: sqlite3.Connection, job: AsBuilt) -> None:
    connection.execute(
        "CREATE TABLE about (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, item TEXT, said TEXT)"
    )
    connection.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, last_change) "
        "VALUES ('about', 'attributes', 'About this as-built', ?)",
        [_changed(job)],
    )
    rows = [(name, _kept(said)) for name, said in about_job(job)]
    connection.executemany("INSERT INTO about (item, said) VALUES (?,?)", rows)


def _changed(job: AsBuilt) -> str:
    """The last day of the book, since the file changes only when the book does."""
    return f"{job.last_day or '1970-01-01'}T00:00:00.000Z"


def _kept(cell: Cell) -> Cell:
    """A cell as it is stored; many readers end a text at a null character, so it is named."""
    return cell.replace("\0", "[U+0000]") if isinstance(cell, str) else cell
