"""Low places of a pipe that hold water, and how much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import acos, pi, sqrt

from models.errors import CalculationInputError
from models.science.grade.profile import Shot, in_order
from models.science.levelling.laser_plane import Length, Stationing

CUBIC_NM_PER_PL = 1e12


@dataclass(frozen=True, slots=True)
class Belly:
    """A low place, filled to the sill that holds it in.

    Attributes
    ----------
    start_nm : int
        Smaller station of the water's edge. [nm]
    end_nm : int
        Larger station of the water's edge. [nm]
    deepest_nm : int
        Station of the deepest shot. [nm]
    depth_nm : int or Fraction
        Greatest depth of water. [nm]
    volume_pl : int
        Water held in the bore. [pl]
    open_at_head : bool
        Whether the invert ends before it has climbed to the sill again. [-]
    """

    start_nm: int
    end_nm: int
    deepest_nm: int
    depth_nm: Length
    volume_pl: int
    open_at_head: bool

    @property
    def length_nm(self) -> int:
        """Length of the water's surface along the stations [nm]."""
        return self.end_nm - self.start_nm


@dataclass(frozen=True, slots=True)
class _Depth:
    """Depth of standing water at a distance from the outlet."""

    away_nm: Length
    depth_nm: Length


def find_bellies(shots: Sequence[Shot], stationing: Stationing, bore_nm: int) -> list[Belly]:
    r"""Every low place that holds water, seen from the outlet.

    Walking up from the outlet, the water at any place can stand no lower than
    the highest invert passed so far; where the invert dips under that it is a
    belly::

        outlet __/ sill ~~~~~~~~ / head
                       \________/

    Parameters
    ----------
    shots : sequence of Shot
        Inverts in order of growing station. [nm]
    stationing : Stationing
        Which end the stations are counted from. [-]
    bore_nm : int
        Inside diameter of the pipe. [nm]

    Returns
    -------
    bellies : list of Belly
        From the outlet upwards. [nm]

    Raises
    ------
    CalculationInputError
        If shots are out of order or the bore is not above zero.

    Notes
    -----
    Between shots the invert is taken as straight. The lip of the outlet counts
    as the first sill; water backed up from beyond it is not known here. The
    water's edge is rounded to whole nanometres, the depth is exact. Volume:
    see ``held_volume_pl``. Derived here.

    Examples
    --------
    By hand: the dip of 4 at 20 starts at the sill at 10 and is climbed out of
    half way from 20 to 30.

    >>> shots = [Shot(0, 0), Shot(10, 2), Shot(20, -2), Shot(30, 6)]
    >>> belly, = find_bellies(shots, Stationing.FROM_OUTLET, 10)
    >>> belly.start_nm, belly.end_nm, belly.depth_nm, belly.deepest_nm
    (10, 25, 4, 20)
    """
    in_order(shots)
    if bore_nm <= 0:
        raise CalculationInputError(
            what="the water held", why="the pipe has no bore", accepted="Give its inside diameter"
        )
    if not shots:
        return []
    upwards = list(shots) if stationing is Stationing.FROM_OUTLET else list(reversed(shots))
    outlet_nm, climb = upwards[0].station_nm, stationing.climb
    return [
        _belly(wet, outlet_nm, climb, bore_nm)
        for wet in _wet_stretches([_away(shot, outlet_nm) for shot in upwards])
    ]


def _away(shot: Shot, outlet_nm: int) -> Shot:
    """The shot with its station turned into a distance from the outlet."""
    return Shot(abs(shot.station_nm - outlet_nm), shot.elevation_nm)


def _wet_stretches(upwards: Sequence[Shot]) -> list[list[_Depth]]:
    """Depths of water, one list for each belly, from sill to far edge."""
    stretches: list[list[_Depth]] = []
    wet: list[_Depth] = []
    sill_nm = upwards[0].elevation_nm
    for one, other in pairwise(upwards):
        depth_nm = sill_nm - other.elevation_nm
        if not wet and depth_nm > 0:
            wet = [_Depth(one.station_nm, 0)]
            stretches.append(wet)
        if wet and depth_nm > 0:
            wet.append(_Depth(other.station_nm, depth_nm))
        elif wet:
            climbed = Fraction(wet[-1].depth_nm) / (other.elevation_nm - one.elevation_nm)
            edge_nm = one.station_nm + climbed * (other.station_nm - one.station_nm)
            wet.append(_Depth(edge_nm, 0))
            wet = []
        sill_nm = max(sill_nm, other.elevation_nm)
    return stretches


def _belly(wet: list[_Depth], outlet_nm: int, climb: int, bore_nm: int) -> Belly:
    """Turn a wet stretch into what people ask of it."""
    deepest = max(wet, key=lambda place: place.depth_nm)
    ends = sorted(outlet_nm + climb * round(place.away_nm) for place in (wet[0], wet[-1]))
    volume_pl = sum(
        held_volume_pl(one.depth_nm, other.depth_nm, other.away_nm - one.away_nm, bore_nm)
        for one, other in pairwise(wet)
    )
    return Belly(
        start_nm=ends[0],
        end_nm=ends[1],
        deepest_nm=outlet_nm + climb * round(deepest.away_nm),
        depth_nm=deepest.depth_nm,
        volume_pl=round(volume_pl),
        open_at_head=wet[-1].depth_nm > 0,
    )


def held_volume_pl(one_nm: Length, other_nm: Length, length_nm: Length, bore_nm: int) -> float:
    r"""Water in a piece of pipe whose depth goes evenly from one end to the other.

    .. math::
        V = \frac{L}{y_2 - y_1} \int_{y_1}^{y_2} A(y)\,dy, \qquad
        \int_0^y A = r^2 s - \tfrac{1}{3} s^3 - r^2 u \arccos\frac{u}{r},
        \quad u = r - y, \; s = \sqrt{r^2 - u^2}

    Parameters
    ----------
    one_nm : int or Fraction
        Depth at one end. [nm]
    other_nm : int or Fraction
        Depth at the other end. [nm]
    length_nm : int or Fraction
        Length of the piece. [nm]
    bore_nm : int
        Inside diameter. [nm]

    Returns
    -------
    volume : float
        Water held. [pl]

    Notes
    -----
    A(y) is the segment of the circle under the water, the whole circle above
    the crown. The integral is in closed form, in floats; near-equal depths use
    the area at their mean, and depths under 1/1000 of the radius the first
    term of the series, where the closed form would cancel. Derived here.

    Examples
    --------
    By hand: a full pipe of 100 mm bore holds pi/4 x 0.01 m2 x 1 m = 0.00785398 m3.

    >>> round(held_volume_pl(100_000_000, 100_000_000, 10**9, 100_000_000) / 1e15, 8)
    0.00785398
    """
    radius = bore_nm / 2
    low, high = sorted((float(one_nm), float(other_nm)))
    if high - low < 1e-6 * radius:
        area = _wet_area((low + high) / 2, radius)
    else:
        area = (_area_integral(high, radius) - _area_integral(low, radius)) / (high - low)
    return area * float(length_nm) / CUBIC_NM_PER_PL


def _wet_area(depth: float, radius: float) -> float:
    """Area of the circle below a depth of water [nm2]."""
    if depth >= 2 * radius:
        return pi * radius**2
    over = radius - max(depth, 0.0)
    return radius**2 * acos(over / radius) - over * sqrt(radius**2 - over**2)


def _area_integral(depth: float, radius: float) -> float:
    """Integral of the wet area from dry up to a depth [nm3]."""
    if depth < radius / 1000:
        shallow = max(depth, 0.0)
        return 8 / 15 * sqrt(2 * radius) * shallow * shallow * sqrt(shallow)
    over_crown = max(depth - 2 * radius, 0.0)
    over = max(radius - depth, -radius)
    half = sqrt(radius**2 - over**2)
    filled = radius**2 * half - half**3 / 3 - radius**2 * over * acos(over / radius)
    return filled + pi * radius**2 * over_crown
