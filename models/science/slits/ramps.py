"""Ramps that a round blade leaves at both ends of a cut, where it is not at full depth yet."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, isqrt, pi, sqrt


def _root(square: int) -> int:
    """Square root of a whole number, rounded to the nearest one."""
    return (isqrt(4 * square) + 1) // 2


@dataclass(frozen=True, slots=True)
class Ramp:
    r"""The end of a cut by a round blade, from the turf down to full depth.

    With R the radius, d the depth, c = R - d:

    .. math::
        r = \sqrt{2 R d - d^2}, \qquad y(u) = \sqrt{R^2 - (r - u)^2} - c

    Attributes
    ----------
    radius_nm : int
        Cutting radius of the blade; 0 for a blade whose ends are square. [nm]
    depth_nm : int
        Full depth below finished turf. [nm]

    Notes
    -----
    A blade deeper than its radius leaves upright walls above its middle. Derived here.

    Examples
    --------
    By hand: R 18 in, d 9 in: the root of 2 x 18 x 9 - 81 = 243 is 15.588 in.

    >>> round(Ramp(18 * 25_400_000, 9 * 25_400_000).length_nm / 25_400_000, 3)
    15.588
    """

    radius_nm: int
    depth_nm: int

    @property
    def length_nm(self) -> int:
        """From where the blade enters the turf to full depth, rounded to the nanometre [nm]."""
        if self.depth_nm >= self.radius_nm:
            return self.radius_nm
        return _root(2 * self.radius_nm * self.depth_nm - self.depth_nm**2)

    @property
    def shortest_nm(self) -> int:
        """Shortest cut that reaches full depth, at one place of it [nm]."""
        return 2 * self.length_nm

    @property
    def missing_nm2(self) -> float:
        """Area between the ramp and a square end at full depth, of one end [nm2]."""
        if not self.radius_nm:
            return 0.0
        cut_nm = self.radius_nm - self.depth_nm
        return self.length_nm * self.depth_nm - segment_nm2(self.radius_nm, cut_nm)

    def depth_at_nm(self, from_end_nm: int) -> int:
        """Depth at a distance from the end of the cut, rounded to the nanometre [nm]."""
        back_nm = self.length_nm - from_end_nm
        if back_nm <= 0:
            return self.depth_nm
        if from_end_nm < 0:
            return 0
        rise_nm = _root(self.radius_nm**2 - back_nm**2) - (self.radius_nm - self.depth_nm)
        return max(0, rise_nm)

    def within_from_nm(self, under_nm: int) -> int:
        """From the end to where the depth lacks no more than is allowed less [nm]."""
        if under_nm >= self.depth_nm:
            return 0
        if under_nm >= self.radius_nm:
            return 0
        reach_nm = _root(2 * self.radius_nm * under_nm - under_nm**2)
        return max(0, self.length_nm - reach_nm)


def segment_nm2(radius_nm: int, above_nm: float) -> float:
    r"""Half of the part of a disc that lies beyond a chord.

    .. math::
        \frac{1}{2} \left(R^2 \arccos \frac{z}{R} - z \sqrt{R^2 - z^2}\right)

    Parameters
    ----------
    radius_nm : int
        R. [nm]
    above_nm : float
        z, from the middle of the disc to the chord; below zero the disc's middle lies
        in the part, whose walls then stand upright above it. [nm]

    Returns
    -------
    area : float
        On one side of the radius that halves it. [nm2]

    Notes
    -----
    A segment of a circle, halved. Derived here.

    Examples
    --------
    By hand: half of the half disc of radius 1 is a quarter of pi.

    >>> round(segment_nm2(1, 0), 4)
    0.7854
    """
    if above_nm >= radius_nm:
        return 0.0
    if above_nm < 0:
        return pi * radius_nm**2 / 4 - above_nm * radius_nm
    height_nm = sqrt(radius_nm**2 - above_nm**2)
    return (radius_nm**2 * acos(above_nm / radius_nm) - above_nm * height_nm) / 2
