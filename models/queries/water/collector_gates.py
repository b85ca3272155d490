"""Gates of a collector on its network, from its reaches to the outlet that they lead to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from models.entries.bodies.outlets import Outlet
from models.queries.water.network import (
    JobNetwork,
    ReachPlace,
    network_as_laid,
    network_as_planned,
    outlet_of_run,
)
from models.queries.water.tailwater import OutletLevel, tailwater_of
from models.science.water.network import Network, areas_above, reaches_an_outlet
from models.science.water.network_gate import (
    NetworkGate,
    NetworkLimit,
    capacity_gate,
    free_gate,
    level_gate,
)
from models.science.water.water_line import ReachWater, water_line
from models.state.job_state import JobState

_UL_PER_M3 = 10**9
_NEARLY = 1e-6
"""A reach that carries its full flow to this share is taken as full."""


@dataclass(frozen=True, slots=True)
class CollectorGates:
    """Gates of the network that a collector is of, and what governs it.

    ``rate_mm_per_h`` holds over every area joined to the network. ``beside`` are the rates up
    to which piped slits give freely and nothing comes up. ``reach`` is the one that governs,
    as it runs at that rate, and ``place`` where it lies; None where the outlet itself governs.
    ``area_m2`` drains through the collector's last reach, ``joined_m2`` to its outlet.
    """

    gate: NetworkGate
    beside: tuple[NetworkGate, ...]
    reach: ReachWater | None
    place: ReachPlace | None
    outlet: Outlet
    tailwater: OutletLevel | None
    collector_id: str
    area_m2: float
    joined_m2: float

    @property
    def rate_mm_per_h(self) -> float:
        """Largest rate at which the collector runs free and its outlet takes the water."""
        return self.gate.rate_mm_per_h

    @property
    def is_by_size(self) -> bool:
        """Whether bore and grade of the collector itself govern, not what lies below it."""
        is_own = self.place is not None and self.place.collector_id == self.collector_id
        return is_own and not self.is_drowned

    @property
    def is_drowned(self) -> bool:
        """Whether water stands back into the reach that governs before it carries its own flow."""
        reach = self.reach
        return reach is None or reach.flow_m3_per_s < reach.full_m3_per_s * (1 - _NEARLY)


def collector_gates(state: JobState, collector_id: str, is_laid: bool) -> CollectorGates | None:
    """Gates of a collector's network; None where it has no outlet or no area drains to it."""
    outlet = outlet_of_run(state, collector_id)
    if outlet is None:
        return None
    key = ("collector_gates", f"{collector_id} {is_laid}")
    if key not in state.memo:
        found = network_as_laid(state) if is_laid else network_as_planned(state)
        state.memo[key] = _gates(state, found, collector_id, outlet)
    gates: CollectorGates | None = state.memo[key]
    return gates


def _gates(
    state: JobState, found: JobNetwork, collector_id: str, outlet: Outlet
) -> CollectorGates | None:
    network = _of_outlet(found.network, outlet.outlet_id)
    areas = areas_above(network)
    own = [
        areas[name] for name, at in found.places.items() if _is_on(at, collector_id, areas, name)
    ]
    if not own or not any(areas.values()):
        return None
    gate = free_gate(network)
    if outlet.capacity_ul_per_s is not None:
        capacity = outlet.capacity_ul_per_s / _UL_PER_M3
        gate = min(
            (gate, capacity_gate(network, outlet.outlet_id, capacity)),
            key=lambda one: one.rate_mm_per_h,
        )
    line = water_line(network, gate.rate_mm_per_h)
    nodes = reaches_an_outlet(network)
    joined = [areas[one.reach_id] for one in network.reaches if one.lower == outlet.outlet_id]
    return CollectorGates(
        gate,
        tuple(
            level_gate(network, limit, levels)
            for limit, levels in (
                (NetworkLimit.GIVES_FREELY, _at(found.floors_nm, nodes)),
                (NetworkLimit.COMES_UP, _at(found.grounds_nm, nodes)),
            )
            if levels
        ),
        line.reaches.get(gate.at),
        found.places.get(gate.at),
        outlet,
        tailwater_of(state, outlet),
        collector_id,
        max(own),
        sum(joined),
    )


def _is_on(place: ReachPlace, collector_id: str, areas: Mapping[str, float], reach_id: str) -> bool:
    return place.collector_id == collector_id and reach_id in areas


def _of_outlet(network: Network, outlet_id: str) -> Network:
    """The part of a network that leads to one outlet."""
    own = replace(network, tailwaters_nm={outlet_id: network.tailwaters_nm.get(outlet_id)})
    nodes = reaches_an_outlet(own)
    return replace(own, reaches=tuple(one for one in network.reaches if one.upper in nodes))


def _at(levels_nm: Mapping[str, int], nodes: frozenset[str]) -> dict[str, int]:
    return {node: level for node, level in levels_nm.items() if node in nodes}
