"""The local plane against PROJ and against geodesics on the ellipsoid."""

from __future__ import annotations

from random import Random

import pyproj
import pytest

from models.errors import CalculationInputError
from models.science.shapes.projection import NANODEGREES, LocalProjection, to_geographic, to_local
from models.science.shapes.rings import path_length_nm, perimeter_nm, signed_area_nm2

GEOD = pyproj.Geod(ellps="WGS84")
SITES = [(7.1, 45.2), (-93.3, 44.9), (151.2, -33.9), (179.9999, -17.8), (0, 0), (25, 69.9)]


def plane_at(lon: float, lat: float) -> LocalProjection:
    """The plane that begins at a place."""
    return LocalProjection(round(lon * NANODEGREES), round(lat * NANODEGREES))


@pytest.mark.parametrize("site", SITES)
def test_points_are_those_of_proj(site: tuple[float, float]) -> None:
    """Within a micrometre of another program's transverse Mercator, out to half a degree."""
    plane = plane_at(*site)
    other = pyproj.Proj(plane.proj_text)
    dice = Random(4)
    for _ in range(50):
        lon, lat = (degrees + dice.uniform(-0.5, 0.5) for degrees in site)
        lon = (lon + 180) % 360 - 180  # on either side of the date line
        mine, theirs = to_local(lon, lat, plane), other(lon, lat)
        assert mine.x_nm / 1e9 == pytest.approx(theirs[0], abs=1e-6)
        assert mine.y_nm / 1e9 == pytest.approx(theirs[1], abs=1e-6)


@pytest.mark.parametrize("site", SITES)
def test_there_and_back_is_the_same_place(site: tuple[float, float]) -> None:
    """To a millionth of a millionth of a degree, also across the date line."""
    plane = plane_at(*site)
    lon, lat = site[0] + 0.01, site[1] - 0.02
    back = to_geographic(to_local(lon, lat, plane), plane)

    assert (back[0] - lon + 180) % 360 - 180 == pytest.approx(0, abs=1e-11)
    assert back[1] == pytest.approx(lat, abs=1e-11)


@pytest.mark.parametrize("site", SITES)
def test_area_and_length_are_those_of_the_ellipsoid(site: tuple[float, float]) -> None:
    """A field a kilometre across, five from the origin: right to 0.1 %, in fact to a millionth."""
    corners = [(0.05, 0.04), (0.062, 0.041), (0.06, 0.05), (0.049, 0.052)]
    lons, lats = zip(*[(site[0] + x, site[1] + y) for x, y in corners], strict=True)
    plane = plane_at(*site)
    ring = [to_local(lon, lat, plane) for lon, lat in zip(lons, lats, strict=True)]
    area, length = GEOD.polygon_area_perimeter(lons, lats)

    assert float(signed_area_nm2(ring)) / 1e18 == pytest.approx(area, rel=2e-6)
    assert perimeter_nm(ring) / 1e9 == pytest.approx(length, rel=2e-6)
    assert path_length_nm(ring[:2]) / 1e9 == pytest.approx(
        GEOD.inv(lons[0], lats[0], lons[1], lats[1])[2], rel=2e-6
    )


@pytest.mark.parametrize(
    ("lon", "lat"), [(8.0, 45.0), (7.0, 45.6), (45.0, 7.0), (float("nan"), 45), (7, float("inf"))]
)
def test_what_is_far_is_refused(lon: float, lat: float) -> None:
    """Half a degree is no site; longitude and latitude swapped are found out by it."""
    with pytest.raises(CalculationInputError, match="longitude first"):
        to_local(lon, lat, plane_at(7, 45))


def test_poles_are_refused() -> None:
    """The plane is not stated there."""
    with pytest.raises(CalculationInputError):
        to_local(7, 85.1, plane_at(7, 85))
