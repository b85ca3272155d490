"""Shapes in longitude and latitude, for the forms that know nothing else."""

from __future__ import annotations

from models.science.shapes.projection import LocalProjection, to_geographic
from models.science.shapes.rings import PointNm
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.points import Course
from sync.papers.asbuilt.features.refusals import NotTiedError
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind

DIGITS = 8
"""Decimals of a degree: a millimetre on the ground."""

LonLat = tuple[float, float]


def projection_of(job: AsBuilt, form: str) -> LocalProjection:
    """Projection of a job's plane.

    Raises
    ------
    NotTiedError
        If nobody has written where the plane's origin lies.
    """
    if job.projection is None:
        raise NotTiedError(form=form)
    return job.projection


def lon_lats(course: Course, projection: LocalProjection) -> list[LonLat]:
    """Points of a course, longitude first, to a millimetre."""
    found = []
    for place in course:
        lon, lat = to_geographic(PointNm(place.x_nm, place.y_nm), projection)
        found.append((round(lon, DIGITS), round(lat, DIGITS)))
    return found


def rings_of(layer: Layer, row: LayerRow, projection: LocalProjection) -> list[list[LonLat]]:
    """Parts of a shape; rings of an area are closed, the outer one first and counterclockwise."""
    parts = [lon_lats(course, projection) for course in row.shape or ()]
    if layer.kind is ShapeKind.AREA:
        return [[*ring, ring[0]] for ring in parts]
    return parts
