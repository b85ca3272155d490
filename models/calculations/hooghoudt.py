"""Steady flow to parallel drains through soil or sand, by Hooghoudt's formula."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from models.errors import CalculationInputError


@dataclass(frozen=True, slots=True)
class DrainedGround:
    """What water walks through on its way to a drain; one unit of length throughout.

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
