"""The as-built as GeoJSON (RFC 7946): longitude and latitude on WGS 84, one feature a line.

Levels stand in the properties, above the job's own datum: the third number of a GeoJSON
position is a height above the ellipsoid, which nobody here has measured.
"""

from __future__ import annotations

import json
from typing import Any

from models.science.shapes.projection import LocalProjection
from sync.papers.asbuilt.features.about import about_job
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.geodata.geographic import LonLat, projection_of, rings_of
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind
from sync.papers.asbuilt.layers.survey_layers import layers_of

FORM = "GeoJSON"

_encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode


def build_geojson(job: AsBuilt) -> bytes:
    """Write every feature; one whose place is not known has no geometry, and is there.

    Raises
    ------
    NotTiedError
        If the job's plane is tied to no place on the Earth.
    """
    projection = projection_of(job, FORM)
    features = [_feature(layer, row, projection) for layer in layers_of(job) for row in layer.rows]
    head = _encode({"type": "FeatureCollection", "about": dict(about_job(job)), **_box(features)})
    listed = ",\n".join(_encode(feature) for feature in features)
    return f'{head[:-1]},"features":[\n{listed}\n]}}\n'.encode()


def _feature(layer: Layer, row: LayerRow, projection: LocalProjection) -> dict[str, Any]:
    names = [column.header for column in layer.columns]
    return {
        "type": "Feature",
        "id": row.key,
        "geometry": _geometry(layer.kind, rings_of(layer, row, projection)),
        "properties": {"layer": layer.name, **dict(zip(names, row.cells, strict=True))},
    }


def _geometry(kind: ShapeKind, parts: list[list[LonLat]]) -> dict[str, Any] | None:
    if not parts:
        return None
    if kind is ShapeKind.POINT:
        return {"type": kind.value, "coordinates": parts[0][0]}
    return {"type": kind.value, "coordinates": parts if kind is ShapeKind.AREA else parts[0]}


def _box(features: list[dict[str, Any]]) -> dict[str, list[float]]:
    """Bounds of all that has a place: west, south, east, north."""
    points = [at for one in features for at in _positions(one["geometry"])]
    if not points:
        return {}
    lons, lats = [lon for lon, _ in points], [lat for _, lat in points]
    return {"bbox": [min(lons), min(lats), max(lons), max(lats)]}


def _positions(geometry: dict[str, Any] | None) -> list[LonLat]:
    if geometry is None:
        return []
    found = geometry["coordinates"]
    if geometry["type"] == ShapeKind.POINT:
        return [found]
    return [at for part in found for at in part] if geometry["type"] == ShapeKind.AREA else found
