"""Reads geodata back through GDAL, which shares no code with what wrote it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import shapely
from pyogrio.raw import read

Feature = dict[str, Any]


def features_in(path: Path, layer: str | None = None, *, with_shapes: bool = True) -> list[Feature]:
    """Features of a layer: their fields by name, and ``shape`` as a geometry or None."""
    meta, _, shapes, columns = read(path, layer=layer, read_geometry=with_shapes)
    places = [None] * len(columns[0]) if shapes is None else shapes
    return [
        {**dict(zip(meta["fields"], row, strict=True)), "shape": _shape(place)}
        for place, row in zip(places, zip(*columns, strict=True), strict=True)
    ]


def _shape(data: bytes | None) -> Any:
    return shapely.from_wkb(data) if data is not None else None


def positions(shape: Any) -> Iterator[tuple[float, ...]]:
    """Every position of a geometry, with its level where it has one."""
    yield from (tuple(at) for at in shapely.get_coordinates(shape, include_z=shape.has_z))
