"""Small GeoJSON texts for tests."""

from __future__ import annotations

import json
from typing import Any

SQUARE = [[7.0, 45.0], [7.001, 45.0], [7.001, 45.001], [7.0, 45.001], [7.0, 45.0]]
HOLE = [[7.0004, 45.0004], [7.0004, 45.0005], [7.0005, 45.0005], [7.0005, 45.0004]]
HOLE = [*HOLE, HOLE[0]]


def polygon(*rings: Any) -> dict[str, Any]:
    """A polygon of rings."""
    return {"type": "Polygon", "coordinates": list(rings)}


def feature(geometry: Any, name: Any = None) -> dict[str, Any]:
    """A feature, perhaps with a name."""
    properties = {} if name is None else {"name": name}
    return {"type": "Feature", "properties": properties, "geometry": geometry}


def collection(*features: Any) -> dict[str, Any]:
    """A collection of features."""
    return {"type": "FeatureCollection", "features": list(features)}


def text(value: Any) -> str:
    """The value as a file."""
    return json.dumps(value)
