"""Shapes in longitude and latitude, and the job's plane in well-known text."""

from __future__ import annotations

from models.science.shapes.projection import NANODEGREES, LocalProjection, to_geographic
from models.science.shapes.rings import PointNm
from sync.papers.asbuilt.features.course import Course
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.features.refusals import NotTiedError
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind

DIGITS = 8
"""Decimals of a degree: a millimetre on the ground."""

WGS84 = (
    'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,'
    'AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,'
    'AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],'
    'AUTHORITY["EPSG","4326"]]'
)

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


def site_plane(projection: LocalProjection) -> str:
    """Well-known text of the job's plane."""
    lon, lat = projection.lon_ndeg / NANODEGREES, projection.lat_ndeg / NANODEGREES
    return (
        f'PROJCS["Plane of the site",{WGS84},PROJECTION["Transverse_Mercator"],'
        f'PARAMETER["latitude_of_origin",{lat:.9f}],PARAMETER["central_meridian",{lon:.9f}],'
        'PARAMETER["scale_factor",1],PARAMETER["false_easting",0],PARAMETER["false_northing",0],'
        'UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH]]'
    )
