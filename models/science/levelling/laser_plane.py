"""Heights of a laser plane and of a design line along a collector."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

Length = int | Fraction
"""A length in nanometres that need not be whole: levels on an odd grade are not."""


class Stationing(StrEnum):
    """End of a collector that its stations are counted from."""

    FROM_OUTLET = "from the outlet"
    FROM_HEAD = "from the head"

    @property
    def climb(self) -> int:
        """+1 where the line climbs as stations grow, -1 where it falls."""
        return 1 if self is Stationing.FROM_OUTLET else -1


@dataclass(frozen=True, slots=True)
class GradeLine:
    """A straight line in the profile: a design invert, or a laser plane over it.

    Attributes
    ----------
    elevation_nm : int or Fraction
        Elevation at the station below. [nm above datum]
    station_nm : int
        Station at which that elevation holds. [nm]
    grade : Fraction
        Fall in the direction of flow, positive when it falls; 0 is level. [nm/nm]
    stationing : Stationing
        Which end the stations are counted from. [-]
    """

    elevation_nm: Length
    station_nm: int
    grade: Fraction
    stationing: Stationing = Stationing.FROM_OUTLET


def elevation_at_nm(line: GradeLine, station_nm: int) -> Fraction:
    r"""Elevation of a design line or a laser plane at a station.

    ::

        FROM_OUTLET     __/ head      FROM_HEAD   head \__
             outlet  __/                                  \__  outlet
                0+00 ->                           0+00 ->

    Parameters
    ----------
    line : GradeLine
        The line. [nm]
    station_nm : int
        Where to look. [nm]

    Returns
    -------
    elevation : Fraction
        Not rounded, so that limits stay exact; ``round`` gives whole nm. [nm above datum]

    Notes
    -----
    Stations are horizontal distances. Derived here.

    Examples
    --------
    By hand: 1 % over 50 is 0.5, down from the head, up from the outlet.

    >>> head = GradeLine(1000, 0, Fraction(1, 100), Stationing.FROM_HEAD)
    >>> outlet = GradeLine(1000, 0, Fraction(1, 100))
    >>> elevation_at_nm(head, 50), elevation_at_nm(outlet, 50)
    (Fraction(1999, 2), Fraction(2001, 2))
    """
    run_nm = station_nm - line.station_nm
    return Fraction(line.elevation_nm) + line.stationing.climb * line.grade * run_nm


def laser_plane(
    benchmark_nm: int,
    backsight_nm: int,
    station_nm: int = 0,
    grade: Fraction = Fraction(0),
    stationing: Stationing = Stationing.FROM_OUTLET,
) -> GradeLine:
    """Height of a laser plane from a backsight, level or dialled to a grade.

    Parameters
    ----------
    benchmark_nm : int
        Elevation of the benchmark. [nm above datum]
    backsight_nm : int
        Reading on it. [nm on the rod]
    station_nm : int
        Station abreast of which the benchmark stands; of no matter when the
        plane is level. [nm]
    grade : Fraction
        Grade dialled along the collector, positive falling with the flow. [nm/nm]
    stationing : Stationing
        Which end the stations are counted from. [-]

    Returns
    -------
    plane : GradeLine
        The plane over the collector. [nm]

    Notes
    -----
    The plane is taken as level square to the collector. Derived here.

    Examples
    --------
    By hand: 100.0 + 5.5 = 105.5.

    >>> laser_plane(1000, 55).elevation_nm
    1055
    """
    return GradeLine(benchmark_nm + backsight_nm, station_nm, grade, stationing)


def shot_elevation_nm(plane: GradeLine, station_nm: int, rod_nm: int) -> Fraction:
    """Elevation of a shot taken under a laser plane.

    Parameters
    ----------
    plane : GradeLine
        The plane of the setup. [nm]
    station_nm : int
        Station of the shot. [nm]
    rod_nm : int
        Rod reading. [nm on the rod]

    Returns
    -------
    elevation : Fraction
        Elevation under the rod, not rounded. [nm above datum]

    Notes
    -----
    Leaves out the laser's own error: 10 seconds of arc are 0.005 ft in 100 ft.
    Derived here.

    Examples
    --------
    By hand: 105.5 - 2.3 = 103.2.

    >>> shot_elevation_nm(laser_plane(1000, 55), 0, 23)
    Fraction(1032, 1)
    """
    return elevation_at_nm(plane, station_nm) - rod_nm


def rod_on_grade_nm(plane: GradeLine, design: GradeLine, station_nm: int) -> Fraction:
    """Rod reading that a shot on the design line would show.

    Parameters
    ----------
    plane : GradeLine
        The plane of the setup. [nm]
    design : GradeLine
        The design line of what is shot. [nm]
    station_nm : int
        Station of the shot. [nm]

    Returns
    -------
    reading : Fraction
        Reading on grade; a larger one is low, a smaller one is high. [nm on the rod]

    Notes
    -----
    The same at every station when the plane is dialled to the design grade.
    Derived here.

    Examples
    --------
    By hand: the plane at 1055, the design at 1000, both at 1 %.

    >>> plane = laser_plane(1000, 55, 0, Fraction(1, 100))
    >>> design = GradeLine(1000, 0, Fraction(1, 100))
    >>> rod_on_grade_nm(plane, design, 0), rod_on_grade_nm(plane, design, 777)
    (Fraction(55, 1), Fraction(55, 1))
    """
    return elevation_at_nm(plane, station_nm) - elevation_at_nm(design, station_nm)
