"""Shapes as GeoPackage geometry: the GP header, then well-known binary, in metres."""

from __future__ import annotations

import struct

from sync.papers.asbuilt.features.course import Course
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind

_NM_PER_M = 10**9
_LITTLE, _WITH_BOX = 0b0000_0001, 0b0000_0010
_WITH_LEVELS = 1000
TYPE_CODES = {ShapeKind.POINT: 1, ShapeKind.LINE: 2, ShapeKind.AREA: 3}

Box = tuple[float, float, float, float]
"""Least and most east, least and most north, in metres."""


def shape_blob(layer: Layer, row: LayerRow, srs_id: int) -> bytes | None:
    """Geometry of a row, or None where its place is not known."""
    if row.shape is None:
        return None
    box = b"" if layer.kind is ShapeKind.POINT else struct.pack("<4d", *box_of(row))
    flags = _LITTLE | (_WITH_BOX if box else 0)
    return struct.pack("<2sBBi", b"GP", 0, flags, srs_id) + box + _well_known_binary(layer, row)


def box_of(row: LayerRow) -> Box:
    """Bounds of a row that has a shape."""
    places = [place for course in row.shape or () for place in course]
    easts, norths = [p.x_nm / _NM_PER_M for p in places], [p.y_nm / _NM_PER_M for p in places]
    return min(easts), max(easts), min(norths), max(norths)


def _well_known_binary(layer: Layer, row: LayerRow) -> bytes:
    code = TYPE_CODES[layer.kind] + (_WITH_LEVELS if layer.has_levels else 0)
    head = struct.pack("<BI", 1, code)
    parts = row.shape or ()
    if layer.kind is ShapeKind.POINT:
        return head + _positions(parts[0], layer.has_levels)
    if layer.kind is ShapeKind.LINE:
        return head + _counted(parts[0], layer.has_levels)
    rings = b"".join(_counted((*ring, ring[0]), layer.has_levels) for ring in parts)
    return head + struct.pack("<I", len(parts)) + rings


def _counted(course: Course, has_levels: bool) -> bytes:
    return struct.pack("<I", len(course)) + _positions(course, has_levels)


def _positions(course: Course, has_levels: bool) -> bytes:
    ways = [
        way / _NM_PER_M
        for place in course
        for way in (place.x_nm, place.y_nm, *([place.level_nm or 0] if has_levels else []))
    ]
    return struct.pack(f"<{len(ways)}d", *ways)
