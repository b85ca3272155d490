"""Water line along a network of pipes at a steady rate, from the outlets up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from models.science.water.critical_depth import critical_fill, velocity_head_m
from models.science.water.manning import NM_PER_M, full_flow_m3_per_s
from models.science.water.network import (
    Network,
    NetworkReach,
    areas_above,
    reaches_from_outlets,
)
from models.science.water.part_full import part_full
from models.science.water.pipe_run import flow_from_area_m3_per_s


@dataclass(frozen=True, slots=True)
class LossRule:
    """Named rule for the level at the outlet and for the head that joints cost.

    Attributes
    ----------
    name : str
        What it is called beside a figure. [-]
    starts_at_obvert : bool
        Whether the line never starts below the obvert of the outlet's pipe. [-]
    at_exit, at_joint : float
        Heads lost at a drowned outlet, and where a pipe joins another. [velocity heads]
    per_degree : float
        Head lost for each degree of bend. [velocity heads]
    """

    name: str
    starts_at_obvert: bool = False
    at_exit: float = 0.0
    at_joint: float = 0.0
    per_degree: float = 0.0


PLAIN_RULE = LossRule("half a velocity head at each joint", at_joint=0.5)
"""Free outlets by FHWA HEC-22, from memory; the loss at a joint is common practice, no source."""

AUSTIN_RULE = LossRule("City of Austin: never below the obvert of the outlet", True)
"""City of Austin, Drainage Criteria Manual, section 5.5."""

HEC_22_RULE = LossRule("FHWA HEC-22", at_exit=1.0, at_joint=0.5, per_degree=0.0033)
"""FHWA HEC-22, chapter 7: exit and bends; from memory. At joints as in the plain rule."""


@dataclass(frozen=True, slots=True)
class ReachWater:
    """How one reach runs.

    Attributes
    ----------
    reach : NetworkReach
        The reach. [-]
    flow_m3_per_s : float
        Its flow. [m3/s]
    full_m3_per_s : float
        What it carries full, without pressure; nothing where it is flat or adverse. [m3/s]
    depth_m : float or None
        Normal depth; None where it runs full whatever stands below it. [m]
    lower_m, upper_m : float
        Water line at its ends. [m above datum]
    full_for_m : float
        How far up from its lower end it runs full. [m]
    """

    reach: NetworkReach
    flow_m3_per_s: float
    full_m3_per_s: float
    depth_m: float | None
    lower_m: float
    upper_m: float
    full_for_m: float

    @property
    def over_obvert_m(self) -> float:
        """Height of the water line over the obvert at its upper end [m]."""
        return self.upper_m - float(self.reach.obvert_upper_nm) / NM_PER_M


@dataclass(frozen=True, slots=True)
class WaterLine:
    """Water line of a network at one rate.

    Attributes
    ----------
    rate_mm_per_h : float
        Depth of water over every joined area. [mm/h]
    reaches : mapping of str to ReachWater
        Every reach that leads to an outlet, by name, from the outlets up. [-]
    levels_m : mapping of str to float
        Level at each node that a reach leads on from. [m above datum]
    rule : LossRule
        The rule it was worked out by. [-]
    """

    rate_mm_per_h: float
    reaches: Mapping[str, ReachWater]
    levels_m: Mapping[str, float]
    rule: LossRule = PLAIN_RULE


def water_line(network: Network, rate_mm_per_h: float, rule: LossRule = PLAIN_RULE) -> WaterLine:
    """Work out the water line of a network at a steady rate, from its outlets up.

    Parameters
    ----------
    network : Network
        The network. [nm, m2]
    rate_mm_per_h : float
        Depth of water that leaves every joined area, one and the same for all. [mm/h]
    rule : LossRule
        Level at the outlet, and losses. [-]

    Returns
    -------
    line : WaterLine
        Each reach from the outlets up, and the level at each node. [m above datum]

    Notes
    -----
    Steady, in one dimension, with no storage in the pipes. At a free outlet the line stands
    midway between critical depth and the obvert (FHWA HEC-22, from memory). A reach that is
    drowned rises by the slope of friction until it comes out above its normal depth; one that
    carries more than its full flow, or is flat or adverse, runs full. An estimate.

    Examples
    --------
    By hand: at rest the line stands at the tailwater, below the head of the pipe.

    >>> from fractions import Fraction
    >>> mm = 10**6
    >>> pipe = NetworkReach(
    ...     "a", "head", "out", 10_000 * mm, Fraction(500 * mm), Fraction(0), 100 * mm, 0.015
    ... )
    >>> line = water_line(Network((pipe,), {"out": 250 * mm}, {"head": 100.0}), 0.0)
    >>> run = line.reaches["a"]
    >>> run.lower_m, run.upper_m, round(run.full_for_m, 9)
    (0.25, 0.5, 3.0)
    """
    areas = areas_above(network)
    levels: dict[str, float] = {}
    found: dict[str, ReachWater] = {}
    for reach in reaches_from_outlets(network):
        flow = flow_from_area_m3_per_s(areas[reach.reach_id], rate_mm_per_h)
        if reach.lower in network.tailwaters_nm:
            below = _outlet_level_m(reach, flow, network.tailwaters_nm[reach.lower], rule)
        else:
            loss = rule.at_joint if reach.is_joined else 0.0
            below = levels[reach.lower] + loss * velocity_head_m(flow, reach.bore_nm)
        below += rule.per_degree * reach.bend_degrees * velocity_head_m(flow, reach.bore_nm)
        water = _along(reach, flow, below)
        found[reach.reach_id] = water
        levels[reach.upper] = water.upper_m
    return WaterLine(rate_mm_per_h, found, levels, rule)


def _outlet_level_m(
    reach: NetworkReach, flow: float, tailwater_nm: int | None, rule: LossRule
) -> float:
    """Level at which the line starts: of the water outside, or of a free fall."""
    bore_m = reach.bore_nm / NM_PER_M
    fill = 1.0 if rule.starts_at_obvert else (critical_fill(flow, reach.bore_nm) + 1) / 2
    free = float(reach.invert_lower_nm) / NM_PER_M + fill * bore_m
    if tailwater_nm is None:
        return free
    loss = rule.at_exit * velocity_head_m(flow, reach.bore_nm)
    return max(free, tailwater_nm / NM_PER_M + loss)


def _along(reach: NetworkReach, flow: float, below_m: float) -> ReachWater:
    """Water line along a reach, from the level below it."""
    bore_m, length_m = reach.bore_nm / NM_PER_M, reach.length_nm / NM_PER_M
    lower_m = float(reach.invert_lower_nm) / NM_PER_M
    upper_m = float(reach.invert_upper_nm) / NM_PER_M
    grade = float(reach.grade)
    full = full_flow_m3_per_s(reach.bore_nm, reach.grade, reach.roughness)
    depth = None
    if grade > 0 and flow <= full:
        depth = bore_m * part_full(flow, reach.bore_nm, reach.grade, reach.roughness).fill
    start = max(below_m, lower_m + (bore_m if depth is None else depth))
    # Friction goes with the square of the flow; the grade of 1 only names what it is held to.
    friction = (flow / full_flow_m3_per_s(reach.bore_nm, 1, reach.roughness)) ** 2
    full_for = length_m
    if depth is not None and friction < grade:
        full_for = max(0.0, start - lower_m - bore_m) / (grade - friction)
    if full_for >= length_m:
        return ReachWater(reach, flow, full, depth, start, start + friction * length_m, length_m)
    end = max(start, upper_m + (depth or 0.0))
    return ReachWater(reach, flow, full, depth, start, end, full_for)
