"""Flow and velocity of water in a collector along the grade it was laid to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from models.errors import CalculationInputError
from models.science.grade.reach_grade import Reach
from models.science.water.manning import full_flow_m3_per_s, full_velocity_m_per_s

FT_M = 0.3048

ROUGHNESS: dict[str, float] = {
    # From memory: farm-drainage practice for 3 to 8, 10 to 12 and larger than 12 in.
    "corrugated plastic, 3 to 8 in": 0.015,
    "corrugated plastic, 10 to 12 in": 0.017,
    "corrugated plastic, above 12 in": 0.020,
    # From memory: clay or concrete tile in good order.
    "clay or concrete tile": 0.013,
    # City of Austin, Drainage Criteria Manual, table 5-2.
    "smooth plastic": 0.010,
    "smooth plastic, perforated": 0.020,
}
"""Manning's n by pipe [s/m^(1/3)]. Sources differ by half: keep the n with the result."""

LEAST_VELOCITY = 0.5 * FT_M
"""Keeps a drain clean where no fine sand or silt comes in [m/s]."""

LEAST_VELOCITY_WITH_SILT = 1.4 * FT_M
"""Keeps a drain clean where fine sand or silt comes in [m/s]."""

MOST_VELOCITY = 10 * FT_M
"""Common practice for sewers, no source [m/s]; a perforated pipe in sand wants less."""


class VelocityWarning(StrEnum):
    """Warnings of too slow or too fast water in a drain."""

    SETTLES = "slower than what keeps a drain clean"
    SILT_SETTLES = "slower than what keeps fine sand and silt moving"
    WEARS = "faster than the stated upper limit"


@dataclass(frozen=True, slots=True)
class ReachFlow:
    """Flow of one reach when it runs full.

    Attributes
    ----------
    reach : Reach
        The reach. [nm]
    flow_m3_per_s : float
        Flow, nothing where it is flat or adverse. [m3/s]
    velocity_m_per_s : float
        Velocity at that flow. [m/s]
    """

    reach: Reach
    flow_m3_per_s: float
    velocity_m_per_s: float


def run_flows(reaches: Sequence[Reach], bore_nm: int, roughness: float) -> list[ReachFlow]:
    """Flow of each reach of a collector at the grade it was laid to.

    Parameters
    ----------
    reaches : sequence of Reach
        Between the shots on the invert as laid. [nm]
    bore_nm : int
        Inside diameter. [nm]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    flows : list of ReachFlow
        One for each reach, in the same order. [m3/s, m/s]

    Notes
    -----
    A short reach takes its grade from two close readings, so its flow is no
    surer than its grade: look at ``Reach.verdict`` first. Derived here.

    Examples
    --------
    By hand: four times the grade carries twice the flow.

    >>> from models.science.quality.verdict import Verdict
    >>> falls = ((0, 1000, 4), (1000, 2000, 1), (2000, 3000, 0))
    >>> reaches = [Reach(*fall, Verdict.OK) for fall in falls]
    >>> steep, flat, level = run_flows(reaches, 10**8, 0.015)
    >>> round(steep.flow_m3_per_s / flat.flow_m3_per_s, 9), level.flow_m3_per_s
    (2.0, 0.0)
    """
    return [
        ReachFlow(
            reach,
            full_flow_m3_per_s(bore_nm, reach.grade, roughness),
            full_velocity_m_per_s(bore_nm, reach.grade, roughness),
        )
        for reach in reaches
    ]


def worst_reach(flows: Sequence[ReachFlow]) -> ReachFlow:
    """The reach that limits what a whole collector carries.

    Parameters
    ----------
    flows : sequence of ReachFlow
        What each reach carries. [m3/s]

    Returns
    -------
    worst : ReachFlow
        The one that carries least; of equals the first. [m3/s]

    Raises
    ------
    CalculationInputError
        If there are no reaches.

    Notes
    -----
    Holds for a pipe that must not run under pressure, with one bore, and with
    the whole flow in every reach. The upper reaches carry less than the whole,
    so this is on the safe side. A reach that is flat or runs backwards carries
    nothing by this measure; water does pass it, by standing up behind it.

    Examples
    --------
    By inspection: 1 is less than 2.

    >>> from models.science.quality.verdict import Verdict
    >>> one = Reach(0, 10, 1, Verdict.OK)
    >>> worst_reach([ReachFlow(one, 2.0, 1.0), ReachFlow(one, 1.0, 0.5)]).flow_m3_per_s
    1.0
    """
    if not flows:
        raise CalculationInputError(
            what="what a collector carries",
            why="there is no reach between two shots",
            accepted="Shoot the invert at two stations at least",
        )
    return min(flows, key=lambda one: one.flow_m3_per_s)


def velocity_warnings(
    velocity_m_per_s: float, takes_silt: bool, most_m_per_s: float = MOST_VELOCITY
) -> list[VelocityWarning]:
    """Warn of too slow or too fast water in a drain that runs full.

    Parameters
    ----------
    velocity_m_per_s : float
        Velocity full. [m/s]
    takes_silt : bool
        Whether fine sand or silt comes in with the water. [-]
    most_m_per_s : float
        Upper limit. [m/s]

    Returns
    -------
    warnings : list of VelocityWarning
        Empty when nothing is wrong. [-]

    Notes
    -----
    A velocity on its limit is not warned of; it is a float, so that is to
    about one part in 10^12. Lower limits 0.5 and 1.4 ft/s: University of
    Wisconsin-Madison Extension, "The Basics of Agricultural Tile Drainage",
    part 2. Upper limit: common practice, no source.

    Examples
    --------
    By inspection: 1 ft/s lies between the two lower limits.

    >>> velocity_warnings(0.3048, takes_silt=False)
    []
    >>> [str(warning) for warning in velocity_warnings(0.3048, takes_silt=True)]
    ['slower than what keeps fine sand and silt moving']
    """
    slack = 1 + 1e-12
    if velocity_m_per_s * slack < LEAST_VELOCITY:
        return [VelocityWarning.SETTLES]
    if takes_silt and velocity_m_per_s * slack < LEAST_VELOCITY_WITH_SILT:
        return [VelocityWarning.SILT_SETTLES]
    return [VelocityWarning.WEARS] if velocity_m_per_s > most_m_per_s * slack else []


def flow_from_area_m3_per_s(area_m2: float, depth_mm_per_h: float) -> float:
    """Flow that an area sends when a depth of water leaves it every hour.

    Parameters
    ----------
    area_m2 : float
        Area that drains to the pipe. [m2]
    depth_mm_per_h : float
        Depth of water over it. [mm/h]

    Returns
    -------
    flow : float
        Flow. [m3/s]

    Notes
    -----
    Everything that falls is taken to arrive: no runoff, no loss to the soil.

    Examples
    --------
    By hand: 3600 m2 x 0.001 m / 3600 s.

    >>> round(flow_from_area_m3_per_s(3600, 1), 12)
    0.001
    """
    return area_m2 * depth_mm_per_h / 1000 / 3600
