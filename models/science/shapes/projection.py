"""Longitude and latitude to the local plane and back: a transverse Mercator at the site."""

from __future__ import annotations

from dataclasses import dataclass
from math import asinh, atan, atan2, atanh, cos, cosh, degrees, hypot, radians, sin, sinh, sqrt, tan

from models.errors import CalculationInputError
from models.science.shapes.rings import PointNm

NANODEGREES = 1_000_000_000
"""In one degree: a tenth of a millimetre on the ground."""

FARTHEST_DEGREES = 0.5
"""From the origin, either way: what lies farther is no part of the same site."""

HIGHEST_LATITUDE_DEGREES = 85.0

_EQUATOR_NM = 6_378_137 * 10**9  # WGS 84
_FLATTENING = 1 / 298.257223563  # WGS 84
_N = _FLATTENING / (2 - _FLATTENING)
_E = sqrt(_FLATTENING * (2 - _FLATTENING))
_RECTIFYING_NM = _EQUATOR_NM / (1 + _N) * (1 + _N**2 / 4 + _N**4 / 64)
_ALPHA = (
    _N / 2 - 2 * _N**2 / 3 + 5 * _N**3 / 16 + 41 * _N**4 / 180,
    13 * _N**2 / 48 - 3 * _N**3 / 5 + 557 * _N**4 / 1440,
    61 * _N**3 / 240 - 103 * _N**4 / 140,
    49561 * _N**4 / 161280,
)
_BETA = (
    _N / 2 - 2 * _N**2 / 3 + 37 * _N**3 / 96 - _N**4 / 360,
    _N**2 / 48 + _N**3 / 15 - 437 * _N**4 / 1440,
    17 * _N**3 / 480 - 37 * _N**4 / 840,
    4397 * _N**4 / 161280,
)


@dataclass(frozen=True, slots=True)
class LocalProjection:
    """The local plane of a site: transverse Mercator on WGS 84 with scale 1 through its origin.

    Attributes
    ----------
    lon_ndeg, lat_ndeg : int
        The origin, which is (0, 0) of the plane. [1e-9 degree]
    """

    lon_ndeg: int
    lat_ndeg: int

    @property
    def proj_text(self) -> str:
        """The projection as it is stated on a print, in the notation of PROJ."""
        lon, lat = (f"{ndeg / NANODEGREES:.9f}" for ndeg in (self.lon_ndeg, self.lat_ndeg))
        return f"+proj=tmerc +lat_0={lat} +lon_0={lon} +k=1 +x_0=0 +y_0=0 +ellps=WGS84 +units=m"


def to_local(lon_degrees: float, lat_degrees: float, projection: LocalProjection) -> PointNm:
    r"""A place on the ellipsoid in the local plane.

    Parameters
    ----------
    lon_degrees, lat_degrees : float
        The place, east and north positive. [degree]
    projection : LocalProjection
        The plane. [1e-9 degree]

    Returns
    -------
    point : PointNm
        East and north of the origin. [nm]

    Raises
    ------
    CalculationInputError
        If the place is not within half a degree of the origin or nearer a pole than 5 degrees.

    Notes
    -----
    North is grid north, which leaves true north by the sine of the latitude times the
    difference in longitude: 0.006 degrees 1 km east of the origin at 45 degrees. Lengths
    are too long by (distance east)^2 / (2 R^2): 1 part in 80 million at 1 km, 1 in 33,000 at
    the limit. Heights above the ellipsoid are left out: 100 m of height lengthen by 16 parts
    in a million.
    Series of Krueger (1912) in the third flattening, to its fourth power, as given by
    C. F. F. Karney, "Transverse Mercator with an accuracy of a few nanometers", Journal of
    Geodesy 85 (2011); coefficients compared with three published programs.

    Examples
    --------
    From PROJ 9 through pyproj 3.7: ``Proj("+proj=tmerc +lat_0=45 +lon_0=7 +ellps=WGS84")``.

    >>> point = to_local(7.001, 45.001, LocalProjection(7 * NANODEGREES, 45 * NANODEGREES))
    >>> round(point.x_nm / 1e9, 3), round(point.y_nm / 1e9, 3)
    (78.845, 111.132)
    """
    far = abs(lat_degrees - projection.lat_ndeg / NANODEGREES)
    turn = _turn_degrees(lon_degrees, projection)
    is_near = far <= FARTHEST_DEGREES and abs(turn) <= FARTHEST_DEGREES
    if not is_near or abs(lat_degrees) > HIGHEST_LATITUDE_DEGREES:
        raise CalculationInputError(
            what="a place in the local plane",
            why=f"longitude {lon_degrees}, latitude {lat_degrees} lies too far from its origin",
            accepted=f"Give places within {FARTHEST_DEGREES} degrees of it, longitude first",
        )
    xi, eta = _forward(radians(lat_degrees), radians(turn))
    start, _ = _forward(radians(projection.lat_ndeg / NANODEGREES), 0.0)
    return PointNm(round(_RECTIFYING_NM * eta), round(_RECTIFYING_NM * (xi - start)))


def to_geographic(point: PointNm, projection: LocalProjection) -> tuple[float, float]:
    """Longitude and latitude of a point of the local plane.

    Parameters
    ----------
    point : PointNm
        East and north of the origin. [nm]
    projection : LocalProjection
        The plane. [1e-9 degree]

    Returns
    -------
    lon_degrees, lat_degrees : float
        The place, east and north positive. [degree]

    Notes
    -----
    The inverse series of the same source; there and back is right to a few nanometres
    within the limits of ``to_local``.

    Examples
    --------
    From PROJ 9 through pyproj 3.7, the place of the example of ``to_local`` back again:

    >>> plane = LocalProjection(7 * NANODEGREES, 45 * NANODEGREES)
    >>> lon, lat = to_geographic(to_local(7.001, 45.001, plane), plane)
    >>> round(lon, 9), round(lat, 9)
    (7.001, 45.001)
    """
    start, _ = _forward(radians(projection.lat_ndeg / NANODEGREES), 0.0)
    xi, eta = point.y_nm / _RECTIFYING_NM + start, point.x_nm / _RECTIFYING_NM
    xi_sphere, eta_sphere = xi, eta
    for order, beta in enumerate(_BETA, start=1):
        xi_sphere -= beta * sin(2 * order * xi) * cosh(2 * order * eta)
        eta_sphere -= beta * cos(2 * order * xi) * sinh(2 * order * eta)
    conformal = sin(xi_sphere) / hypot(sinh(eta_sphere), cos(xi_sphere))
    turn = atan2(sinh(eta_sphere), cos(xi_sphere))
    lon = degrees(turn) + projection.lon_ndeg / NANODEGREES
    return (lon + 180) % 360 - 180 if abs(lon) > 180 else lon, degrees(atan(_tangent(conformal)))


def _turn_degrees(lon_degrees: float, projection: LocalProjection) -> float:
    """How far east of the origin, the short way round the world."""
    turn = lon_degrees - projection.lon_ndeg / NANODEGREES
    return turn - 360 * round(turn / 360) if abs(turn) > 180 else turn


def _forward(lat: float, turn: float) -> tuple[float, float]:
    """Northing and easting in units of the rectifying radius."""
    tangent = tan(lat)
    slant = sinh(_E * atanh(_E * sin(lat)))
    conformal = tangent * hypot(1, slant) - slant * hypot(1, tangent)
    xi = xi_sphere = atan2(conformal, cos(turn))
    eta = eta_sphere = asinh(sin(turn) / hypot(conformal, cos(turn)))
    for order, alpha in enumerate(_ALPHA, start=1):
        xi += alpha * sin(2 * order * xi_sphere) * cosh(2 * order * eta_sphere)
        eta += alpha * cos(2 * order * xi_sphere) * sinh(2 * order * eta_sphere)
    return xi, eta


def _tangent(conformal: float) -> float:
    """Tangent of the latitude whose conformal one is given, by Newton's method."""
    tangent = conformal / (1 - _E**2)
    for _ in range(8):
        sine = tangent / hypot(1, tangent)
        slant = sinh(_E * atanh(_E * sine))
        miss = tangent * hypot(1, slant) - slant * hypot(1, tangent) - conformal
        slope = (1 - _E**2) / (1 + (1 - _E**2) * tangent**2) * hypot(1, tangent)
        slope *= hypot(1, miss + conformal)
        tangent -= miss / slope
        if abs(miss) < 1e-16 * max(1.0, abs(conformal)):
            break
    return tangent
