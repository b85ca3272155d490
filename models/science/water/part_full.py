"""Flow in a round pipe that runs part full, by Manning's formula."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import acos, cos, pi, sin

from models.errors import CalculationInputError
from models.science.water.manning import Number, full_flow_m3_per_s, full_velocity_m_per_s


def bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """Root of a function between two bounds, by bisection.

    Parameters
    ----------
    function : callable
        Below or at nothing at one bound, above or at it at the other. [any]
    low : float
        Lower bound. [any]
    high : float
        Upper bound. [any]

    Returns
    -------
    root : float
        Halved until two neighbouring floats are left. [unit of the bounds]

    Notes
    -----
    Slow and sure: about sixty steps, and it never leaves its bounds.

    Examples
    --------
    By inspection: 2 squared is 4.

    >>> round(bisect(lambda x: x * x - 4, 0, 3), 12)
    2.0
    """
    rises = function(high) > function(low)
    while low < (middle := (low + high) / 2) < high:
        if (function(middle) > 0) == rises:
            high = middle
        else:
            low = middle
    return low if middle <= low else high


MOST_FLOW_FILL = (1 - cos(bisect(lambda t: 3 * t - 5 * t * cos(t) + 2 * sin(t), 4, 6) / 2)) / 2
"""Fill at which a round pipe carries most, 0.938 [-], where dQ/d(angle) is nothing."""


@dataclass(frozen=True, slots=True)
class Elements:
    """Hydraulic elements of a part-full pipe, each as a share of the full pipe's.

    Attributes
    ----------
    area : float
        Wetted area. [-]
    radius : float
        Hydraulic radius. [-]
    velocity : float
        Mean velocity. [-]
    flow : float
        Flow. [-]
    """

    area: float
    radius: float
    velocity: float
    flow: float


@dataclass(frozen=True, slots=True)
class PartFull:
    """The depth at which a pipe carries a flow.

    Attributes
    ----------
    fill : float
        Depth as a share of the bore: the one at which the pipe runs. [-]
    other_fill : float or None
        Near full a second depth carries the same flow; None elsewhere. [-]
    velocity_m_per_s : float
        Mean velocity at ``fill``. [m/s]
    """

    fill: float
    other_fill: float | None
    velocity_m_per_s: float


def hydraulic_elements(fill: float) -> Elements:
    """Area, hydraulic radius, velocity and flow of a part-full round pipe.

    Parameters
    ----------
    fill : float
        Depth as a share of the bore, 0 to 1. [-]

    Returns
    -------
    elements : Elements
        Each as a share of the full pipe's. [-]

    Raises
    ------
    CalculationInputError
        If the fill is not from 0 to 1.

    Notes
    -----
    The roughness is taken as the same at every depth; measured, it is up to a
    quarter larger part full. Derived here from the circle.

    Examples
    --------
    By hand: half full has half the area and the same radius.

    >>> half = hydraulic_elements(0.5)
    >>> [round(share, 9) for share in (half.area, half.radius, half.velocity, half.flow)]
    [0.5, 1.0, 1.0, 0.5]
    """
    if not 0 <= fill <= 1:
        raise CalculationInputError(
            what="a part-full pipe",
            why=f"a fill of {fill:g} is not from 0 to 1",
            accepted="Give the depth of water divided by the bore",
        )
    angle = 2 * acos(1 - 2 * fill)
    if angle == 0:
        return Elements(0.0, 0.0, 0.0, 0.0)
    segment = angle - sin(angle)
    area, radius = segment / (2 * pi), segment / angle
    velocity = float(radius ** (2 / 3))
    return Elements(area, radius, velocity, area * velocity)


MOST_FLOW_SHARE = hydraulic_elements(MOST_FLOW_FILL).flow
"""What a round pipe carries at most, as a share of its flow full, 1.0757 [-]."""


def part_full(flow_m3_per_s: float, bore_nm: int, grade: Number, roughness: float) -> PartFull:
    """Depth and velocity at which a round pipe carries a flow.

    Parameters
    ----------
    flow_m3_per_s : float
        The flow. [m3/s]
    bore_nm : int
        Inside diameter. [nm]
    grade : int, float or Fraction
        Fall for each unit of run. [m/m]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    depth : PartFull
        The fill, the second fill near full, and the velocity. [-, m/s]

    Raises
    ------
    CalculationInputError
        If the flow is negative, or more than the pipe carries without pressure.

    Notes
    -----
    A round pipe carries 1.0757 of its full flow at a fill of 0.938, so between
    full flow and that, two depths fit (the higher from 0.938 up to full). The
    lower one is given as ``fill``; a pipe so near full may jump to the other
    at any breath of back-water, so design to its full flow. Bisected within
    the branch it belongs to, to the last float.

    Examples
    --------
    By hand: half of the 12.566 m3/s of the pipe above runs at half its depth.

    >>> found = part_full(6.283185307179586, 4 * 10**9, 0.0004, 0.02)
    >>> round(found.fill, 6), found.other_fill, round(found.velocity_m_per_s, 6)
    (0.5, None, 1.0)
    """
    full = full_flow_m3_per_s(bore_nm, grade, roughness)
    if flow_m3_per_s < 0 or flow_m3_per_s > full * MOST_FLOW_SHARE:
        raise CalculationInputError(
            what="the depth in a pipe",
            why="the flow is negative, or more than the pipe carries without pressure",
            accepted=f"Give a flow from 0 to {full * MOST_FLOW_SHARE:.3g} m3/s",
        )
    if flow_m3_per_s == 0:
        return PartFull(0.0, None, 0.0)
    share = flow_m3_per_s / full

    def excess(fill: float) -> float:
        return hydraulic_elements(fill).flow - share

    fill = bisect(excess, 0.0, MOST_FLOW_FILL)
    other = bisect(excess, MOST_FLOW_FILL, 1.0) if share >= 1 else None
    velocity = hydraulic_elements(fill).velocity * full_velocity_m_per_s(bore_nm, grade, roughness)
    return PartFull(fill, other, velocity)
