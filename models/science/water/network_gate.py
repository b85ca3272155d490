"""Gate of a network of pipes: the largest rate at which its water line stays low enough."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from models.errors import CalculationInputError
from models.science.water.gates import pipe_mm_per_h
from models.science.water.manning import NM_PER_M
from models.science.water.network import (
    Network,
    NetworkReach,
    areas_above,
    reaches_from_outlets,
)
from models.science.water.water_line import PLAIN_RULE, LossRule, WaterLine, water_line

MOST_MM_PER_H = 1000.0
"""No rain is heavier; a network that carries so much is not worked out further [mm/h]."""

_HALVINGS = 60
_SLACK_M = 1e-9
"""Obverts are worked out in floats: water within a nanometre of one is at it [m]."""


class NetworkLimit(StrEnum):
    """Limits that the water line must not stand above."""

    RUNS_FREE = "the collector runs free"
    GIVES_FREELY = "the piped slits give freely"
    COMES_UP = "no water comes up"
    CAPACITY = "the outlet takes it"


@dataclass(frozen=True, slots=True)
class NetworkGate:
    """Largest rate within a limit.

    Attributes
    ----------
    limit : NetworkLimit
        The limit. [-]
    rate_mm_per_h : float
        The rate, the same over every joined area; 0.0 where there is none. [mm/h]
    at : str
        Reach or node at which the limit is met first; "" where it is met nowhere. [-]
    """

    limit: NetworkLimit
    rate_mm_per_h: float
    at: str


def free_gate(network: Network, rule: LossRule = PLAIN_RULE) -> NetworkGate:
    """Largest rate at which no reach stands full to above the obvert of its upper end.

    Parameters
    ----------
    network : Network
        The network. [nm, m2]
    rule : LossRule
        Level at the outlet, and losses. [-]

    Returns
    -------
    gate : NetworkGate
        The rate, and the reach that governs. [mm/h]

    Raises
    ------
    CalculationInputError
        If no area drains to the network.

    Notes
    -----
    Bisected; the line rises with the rate. With free outlets and without losses it is the
    least full flow over the area above. Derived here.

    Examples
    --------
    By hand: 4.4773 L/s full over 1200 m2 is 13.43 mm/h.

    >>> from fractions import Fraction
    >>> mm = 10**6
    >>> pipe = NetworkReach(
    ...     "a", "head", "out", 50_000 * mm, Fraction(500 * mm), Fraction(0), 100 * mm, 0.015
    ... )
    >>> gate = free_gate(Network((pipe,), {"out": None}, {"head": 1200.0}))
    >>> round(gate.rate_mm_per_h, 2), gate.at
    (13.43, 'a')
    """

    def over(line: WaterLine) -> str:
        return next(
            (name for name, one in line.reaches.items() if one.over_obvert_m > _SLACK_M), ""
        )

    return _largest(network, NetworkLimit.RUNS_FREE, over, rule)


def level_gate(
    network: Network,
    limit: NetworkLimit,
    levels_nm: Mapping[str, int],
    rule: LossRule = PLAIN_RULE,
) -> NetworkGate:
    """Largest rate at which the water line stays at or below a level at each of some nodes.

    Parameters
    ----------
    network : Network
        The network. [nm, m2]
    limit : NetworkLimit
        What the levels are: floors of the joined slits, or the ground less what is kept. [-]
    levels_nm : mapping of str to int
        Highest level at each node. [nm above datum]
    rule : LossRule
        Level at the outlet, and losses. [-]

    Returns
    -------
    gate : NetworkGate
        The rate, and the node that governs. [mm/h]

    Raises
    ------
    CalculationInputError
        If no area drains to the network.

    Notes
    -----
    Nodes that lead to no outlet are not looked at. Derived here.

    Examples
    --------
    By hand: a tailwater at the level of the floor leaves nothing.

    >>> from fractions import Fraction
    >>> mm = 10**6
    >>> pipe = NetworkReach(
    ...     "a", "head", "out", 50_000 * mm, Fraction(0), Fraction(0), 100 * mm, 0.015
    ... )
    >>> network = Network((pipe,), {"out": 300 * mm}, {"head": 1200.0})
    >>> level_gate(network, NetworkLimit.GIVES_FREELY, {"head": 300 * mm}).rate_mm_per_h < 1e-6
    True
    """

    def over(line: WaterLine) -> str:
        return next(
            (
                node
                for node, level_m in line.levels_m.items()
                if node in levels_nm and level_m > levels_nm[node] / NM_PER_M
            ),
            "",
        )

    return _largest(network, limit, over, rule)


def capacity_gate(network: Network, outlet: str, capacity_m3_per_s: float) -> NetworkGate:
    """Largest rate that an outlet takes by its stated capacity, pump or infiltration.

    Parameters
    ----------
    network : Network
        The network. [m2]
    outlet : str
        Node of the outlet. [-]
    capacity_m3_per_s : float
        What it takes. [m3/s]

    Returns
    -------
    gate : NetworkGate
        The capacity over the area joined to it. [mm/h]

    Raises
    ------
    CalculationInputError
        If no area drains to it.

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: a litre a second off 3600 m2 is a millimetre an hour.

    >>> from fractions import Fraction
    >>> pipe = NetworkReach("a", "head", "out", 10, Fraction(5), Fraction(0), 4, 0.015)
    >>> network = Network((pipe,), {"out": None}, {"head": 3600.0})
    >>> round(capacity_gate(network, "out", 0.001).rate_mm_per_h, 12)
    1.0
    """
    areas = areas_above(network)
    joined = sum(areas[one.reach_id] for one in _last_reaches(network) if one.lower == outlet)
    rate = pipe_mm_per_h(capacity_m3_per_s, joined)
    return NetworkGate(NetworkLimit.CAPACITY, rate, outlet)


def _last_reaches(network: Network) -> list[NetworkReach]:
    return [one for one in reaches_from_outlets(network) if one.lower in network.tailwaters_nm]


def _largest(
    network: Network, limit: NetworkLimit, over: Callable[[WaterLine], str], rule: LossRule
) -> NetworkGate:
    """Bisect to the largest rate at which ``over`` names nothing."""
    if not any(areas_above(network).values()):
        raise CalculationInputError(
            what="what the collector carries",
            why="no area drains to it",
            accepted="Join the piped slits to the collector, or say what area drains to it",
        )
    at = over(water_line(network, 0.0, rule))
    if at:
        return NetworkGate(limit, 0.0, at)
    at = over(water_line(network, MOST_MM_PER_H, rule))
    if not at:
        return NetworkGate(limit, MOST_MM_PER_H, "")
    low, high = 0.0, MOST_MM_PER_H
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        found = over(water_line(network, middle, rule))
        if found:
            high, at = middle, found
        else:
            low = middle
    return NetworkGate(limit, low, at)
