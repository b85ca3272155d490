"""A turned frame: across and along a bearing, so that parallel lines stand upright in it."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from models.science.shapes.rings import FULL_TURN_UDEG, MICRODEGREES, PointNm

_QUARTERS = ((0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0))  # exact, as sin(pi) is not


@dataclass(frozen=True, slots=True)
class Frame:
    """Axes square to a bearing and along it; looking along, across grows to the right.

    Attributes
    ----------
    origin : PointNm
        Where both axes begin. [nm]
    bearing_udeg : int
        Clockwise from north. [1e-6 degree]
    """

    origin: PointNm
    bearing_udeg: int

    @property
    def sine_cosine(self) -> tuple[float, float]:
        """Sine and cosine of the bearing, exact on the quarters."""
        quarter, rest_udeg = divmod(self.bearing_udeg % FULL_TURN_UDEG, FULL_TURN_UDEG // 4)
        if not rest_udeg:
            return _QUARTERS[quarter]
        angle = radians(self.bearing_udeg % FULL_TURN_UDEG / MICRODEGREES)
        return sin(angle), cos(angle)

    def place(self, point: PointNm) -> PointNm:
        """The place in the frame of a point of the plane, to the nearest nanometre."""
        sine, cosine = self.sine_cosine
        east_nm, north_nm = point.x_nm - self.origin.x_nm, point.y_nm - self.origin.y_nm
        across_nm = east_nm * cosine - north_nm * sine
        return PointNm(round(across_nm), round(east_nm * sine + north_nm * cosine))

    def point(self, across_nm: float, along_nm: float) -> PointNm:
        """The point of the plane at a place in the frame, to the nearest nanometre."""
        sine, cosine = self.sine_cosine
        east_nm = across_nm * cosine + along_nm * sine
        north_nm = along_nm * cosine - across_nm * sine
        return PointNm(self.origin.x_nm + round(east_nm), self.origin.y_nm + round(north_nm))
