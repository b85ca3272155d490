"""The job's plane in well-known text, for files that name the system of their coordinates."""

from __future__ import annotations

from models.science.shapes.projection import NANODEGREES, LocalProjection

WGS84 = (
    'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,'
    'AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,'
    'AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],'
    'AUTHORITY["EPSG","4326"]]'
)


def site_plane(projection: LocalProjection) -> str:
    """Well-known text of the job's plane."""
    lon, lat = projection.lon_ndeg / NANODEGREES, projection.lat_ndeg / NANODEGREES
    return (
        f'PROJCS["Plane of the site",{WGS84},PROJECTION["Transverse_Mercator"],'
        f'PARAMETER["latitude_of_origin",{lat:.9f}],PARAMETER["central_meridian",{lon:.9f}],'
        'PARAMETER["scale_factor",1],PARAMETER["false_easting",0],PARAMETER["false_northing",0],'
        'UNIT["metre",1,AUTHORITY["EPSG","9001"]],AXIS["Easting",EAST],AXIS["Northing",NORTH]]'
    )
