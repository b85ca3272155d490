"""Steady flow to parallel drains through soil or sand, by Hooghoudt's formula."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, pi, sqrt

from models.errors import CalculationInputError
from models.science.water.part_full import bisect


@dataclass(frozen=True, slots=True)
class DrainedGround:
    """Ground that water passes on its way to a drain; a single unit of length throughout.

    Attributes
    ----------
    above_k : float
        Conductivity above the drains. [length/time]
    below_k : float
        Conductivity below the drains. [length/time]
    equivalent_depth : float
        Equivalent depth below the drains to the tight floor, 0 on it. [length]
    head : float
        Height of the water table above the drains, midway. [length]
    """

    above_k: float
    below_k: float
    equivalent_depth: float
    head: float


def _carried(ground: DrainedGround) -> float:
    """8 K d h + 4 K h^2 [length^3/time]."""
    parts = (ground.above_k, ground.below_k, ground.equivalent_depth, ground.head)
    if min(parts) < 0 or ground.head == 0:
        raise CalculationInputError(
            what="the flow to drains",
            why="a conductivity or depth is below zero, or the head is nothing",
            accepted="Give conductivities and depths from zero up and a head above zero",
        )
    deep = 8 * ground.below_k * ground.equivalent_depth * ground.head
    return deep + 4 * ground.above_k * ground.head**2


def drain_discharge(ground: DrainedGround, spacing: float) -> float:
    r"""Depth of water that parallel drains take off in a unit of time.

    .. math::
        q L^2 = 8 K_b d h + 4 K_a h^2

    Parameters
    ----------
    ground : DrainedGround
        What water walks through. [one length, one time]
    spacing : float
        Distance between drains. [same length]

    Returns
    -------
    discharge : float
        Depth of water over the surface. [same length/time]

    Raises
    ------
    CalculationInputError
        If the spacing is not above zero, or the ground is no ground.

    Notes
    -----
    Steady rain, level floor, drains that run free and take in all round, and a
    spacing much larger than the head (flow taken as level, after Dupuit).
    ``equivalent_depth`` is smaller than the true depth, because water crowds
    towards a drain: take it from a table. With a depth of 0 this is a slit on
    a tight floor, and q = 4 K h^2 / L^2. Source: the drainage equation as
    reference works print it; Ali, Practices of Irrigation and On-farm Water
    Management, equations 9.16 and 9.17 for the two terms alone.

    Examples
    --------
    By hand: 4 x 2 x 9^2 / 36^2 = 648 / 1296.

    >>> drain_discharge(DrainedGround(above_k=2, below_k=0, equivalent_depth=0, head=9), 36)
    0.5
    """
    if spacing <= 0:
        raise CalculationInputError(
            what="the flow to drains",
            why="the spacing is not above zero",
            accepted="Give the distance between neighbouring drains",
        )
    return _carried(ground) / spacing**2


def drain_spacing(ground: DrainedGround, discharge: float) -> float:
    """Widest spacing of parallel drains that takes off a depth of water in time.

    Parameters
    ----------
    ground : DrainedGround
        What water walks through. [one length, one time]
    discharge : float
        Depth of water over the surface. [same length/time]

    Returns
    -------
    spacing : float
        Distance between drains. [same length]

    Raises
    ------
    CalculationInputError
        If the discharge is not above zero, or the ground is no ground.

    Notes
    -----
    ``drain_discharge`` turned round, with its limits. The equivalent depth
    itself grows with the spacing: look it up again for the answer.

    Examples
    --------
    By hand: sqrt(8 x 1 x 2 x 1 / 0.04) = sqrt(400).

    >>> drain_spacing(DrainedGround(above_k=0, below_k=1, equivalent_depth=2, head=1), 0.04)
    20.0
    """
    if discharge <= 0:
        raise CalculationInputError(
            what="a spacing of drains",
            why="the depth of water to take off is not above zero",
            accepted="Give a depth of water for each unit of time",
        )
    return sqrt(_carried(ground) / discharge)


@dataclass(frozen=True, slots=True)
class DrainedSoil:
    """Soil over an impermeable layer, with drains; a single unit of length throughout.

    Attributes
    ----------
    conductivity : float
        Saturated conductivity, above and below the drains alike. [length/time]
    head : float
        Height of the water table above the drains, midway. [length]
    depth_below : float
        Depth from the drains to the impermeable layer, 0 on it. [length]
    radius : float
        Radius of a drain that takes water in all round. [length]
    """

    conductivity: float
    head: float
    depth_below: float
    radius: float


_SHALLOW = 1e-12
"""Depth over spacing below which the equivalent depth is the depth, to far within a float."""


def equivalent_depth(depth: float, spacing: float, radius: float) -> float:
    r"""Depth below the drains that carries as much as the true one with its crowded flow.

    .. math::
        d = \frac{\pi L / 8}{\ln(L / \pi r) + F(x)}, \quad x = 2 \pi D / L

    Parameters
    ----------
    depth : float
        True depth D from the drains to the impermeable layer, 0 on it. [length]
    spacing : float
        Distance L between drains. [same length]
    radius : float
        Radius r of a drain. [same length]

    Returns
    -------
    depth : float
        Equivalent depth, never more than the true one. [same length]

    Raises
    ------
    CalculationInputError
        If the depth is below zero, or the spacing or the radius is not above zero.

    Notes
    -----
    F is the sum over odd n of 4 exp(-2nx) / (n (1 - exp(-2nx))), and for x up to
    0.5 pi^2/(4x) + ln(x / 2 pi). For drains at least ten radii apart.
    Source: van der Molen and Wesseling, "A solution in closed form and a series
    solution to replace the tables for the thickness of the equivalent layer in
    Hooghoudt's drain spacing formula", Agricultural Water Management, 1991 (from
    memory).

    Examples
    --------
    Drains of 0.1 m, 5 m over the layer and 50 m apart.

    >>> round(equivalent_depth(5, 50, 0.1), 3)
    2.933
    """
    if depth < 0 or spacing <= 0 or radius <= 0:
        raise CalculationInputError(
            what="the equivalent depth below drains",
            why="the depth is below zero, or the spacing or the radius is not above zero",
            accepted="Give a depth from zero up, the spacing of the drains and their radius",
        )
    if depth <= spacing * _SHALLOW:
        return depth
    resistance = log(spacing / (pi * radius)) + _crowding(2 * pi * depth / spacing)
    level = pi * spacing / 8
    return depth if resistance * depth <= level else level / resistance


def _crowding(x: float) -> float:
    """F(x) of the equivalent depth."""
    if x <= 0.5:
        return pi**2 / (4 * x) + log(x / (2 * pi))
    falls = [(n, exp(-2 * n * x)) for n in range(1, 60, 2)]
    return sum(4 * fall / (n * (1 - fall)) for n, fall in falls)


def soil_discharge(soil: DrainedSoil, spacing: float) -> float:
    """Depth of water that a soil carries sideways to parallel drains in a unit of time.

    Parameters
    ----------
    soil : DrainedSoil
        The soil and its drains. [one length, one time]
    spacing : float
        Distance between drains. [same length]

    Returns
    -------
    discharge : float
        Depth of water over the surface. [same length/time]

    Notes
    -----
    ``drain_discharge`` with the equivalent depth at that spacing, but no more than
    the soil's own conductivity: water falls into it from above no faster (unit
    gradient), however close the drains.

    Examples
    --------
    By hand, drains on the layer: 4 x 2 x 9^2 / 36^2 = 0.5; 9 apart it would be 8.

    >>> soil = DrainedSoil(conductivity=2, head=9, depth_below=0, radius=1)
    >>> soil_discharge(soil, 36), soil_discharge(soil, 9)
    (0.5, 2)
    """
    return min(soil.conductivity, drain_discharge(_ground(soil, spacing), spacing))


def soil_spacing(soil: DrainedSoil, discharge: float) -> float | None:
    """Widest spacing of drains at which a soil carries a depth of water in time to them.

    Parameters
    ----------
    soil : DrainedSoil
        The soil and its drains. [one length, one time]
    discharge : float
        Depth of water over the surface. [same length/time]

    Returns
    -------
    spacing : float or None
        Distance between drains; None where no spacing will do, since the soil
        lets less in from above. [same length]

    Raises
    ------
    CalculationInputError
        If the discharge is not above zero, or the soil is no soil.

    Notes
    -----
    ``drain_spacing`` with the equivalent depth of the spacing it gives.

    Examples
    --------
    By hand, drains on the layer: sqrt(4 x 2 x 9^2 / 0.5) = 36.

    >>> soil = DrainedSoil(conductivity=2, head=9, depth_below=0, radius=1)
    >>> soil_spacing(soil, 0.5), soil_spacing(soil, 2.1)
    (36.0, None)
    """
    k = soil.conductivity
    shallow = drain_spacing(DrainedGround(k, k, 0, soil.head), discharge)
    if discharge > k:
        return None
    if soil.depth_below == 0:
        return shallow
    deep = drain_spacing(DrainedGround(k, k, soil.depth_below, soil.head), discharge)
    return bisect(lambda at: drain_spacing(_ground(soil, at), discharge) - at, shallow, deep)


def _ground(soil: DrainedSoil, spacing: float) -> DrainedGround:
    """The soil as the formula takes it, at one spacing."""
    k = soil.conductivity
    depth = equivalent_depth(soil.depth_below, spacing, soil.radius)
    return DrainedGround(k, k, depth, soil.head)
