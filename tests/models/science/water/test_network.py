"""Network of pipes: flow adds up, the water line from the outlet up, and its gates."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import sqrt
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.water.critical_depth import critical_fill
from models.science.water.manning import full_flow_m3_per_s
from models.science.water.network import (
    Match,
    Network,
    NetworkReach,
    areas_above,
    arriving_invert_nm,
    circle_in,
    reaches_an_outlet,
    reaches_from_outlets,
)
from models.science.water.network_gate import (
    MOST_MM_PER_H,
    NetworkLimit,
    capacity_gate,
    free_gate,
    level_gate,
)
from models.science.water.part_full import part_full
from models.science.water.water_line import LossRule, water_line

MM = 10**6
M = 10**9
RATE = 8.0
NO_LOSS = LossRule("no losses")


def _reach(
    name: str,
    upper: str,
    lower: str,
    length_m: int,
    invert_mm: int,
    fall_mm: int,
    bore_mm: int,
    roughness: float = 0.015,
    is_joined: bool = False,
) -> NetworkReach:
    low = Fraction(invert_mm * MM)
    return NetworkReach(
        name,
        upper,
        lower,
        length_m * M,
        low + fall_mm * MM,
        low,
        bore_mm * MM,
        roughness,
        is_joined,
    )


def two_runs(tailwater_mm: int | None = None) -> Network:
    """C1 of two sizes with C2 that joins it at 40 m; obverts are level there.

    Worked by hand: at 8 mm/h 7.556, 3.556 and 2.667 L/s, of 11.666, 4.004 and 4.477 full.
    """
    return Network(
        (
            _reach("C1 lower", "J", "out", 40, 10_000, 200, 150, 0.012),
            _reach("C1 upper", "H1", "J", 60, 10_250, 480, 100, is_joined=True),
            _reach("C2", "H2", "J", 50, 10_250, 500, 100, is_joined=True),
        ),
        {"out": None if tailwater_mm is None else tailwater_mm * MM},
        {"J": 600.0, "H1": 1600.0, "H2": 1200.0},
    )


# Worked by hand by the rules of the module's docstring, at 8 mm/h.
@pytest.mark.parametrize(
    ("name", "flow", "full", "depth_mm", "free_m", "drowned_m", "full_for_m"),
    [
        ("C1 lower", 7.556, 11.666, 87.9, 10.288, 10.384, 40.0),
        ("C1 upper", 3.556, 4.004, 73.3, 10.803, 10.803, 23.1),
        ("C2", 2.667, 4.477, 55.6, 10.806, 10.806, 5.7),
    ],
)
def test_worked_line(
    name: str,
    flow: float,
    full: float,
    depth_mm: float,
    free_m: float,
    drowned_m: float,
    full_for_m: float,
) -> None:
    """Flows, depths and water lines of two runs at 8 mm/h are those worked by hand."""
    free = water_line(two_runs(), RATE).reaches[name]
    drowned = water_line(two_runs(10_300), RATE).reaches[name]
    assert free.flow_m3_per_s * 1000 == pytest.approx(flow, abs=0.0005)
    assert free.full_m3_per_s * 1000 == pytest.approx(full, abs=0.0005)
    assert free.depth_m is not None
    assert free.depth_m * 1000 == pytest.approx(depth_mm, abs=0.05)
    assert free.upper_m == pytest.approx(free_m, abs=0.0005)
    assert free.full_for_m == 0
    assert drowned.upper_m == pytest.approx(drowned_m, abs=0.0005)
    assert drowned.full_for_m == pytest.approx(full_for_m, abs=0.05)


def test_drowned_lower_run() -> None:
    """The lower run is drowned to its upper end, where its obvert is at 10.350."""
    lower = water_line(two_runs(10_300), RATE).reaches["C1 lower"]
    assert lower.reach.obvert_upper_nm == 10_350 * MM
    # By hand: friction (7.556 / 11.666)^2 x 0.5 % over 40 m is 83.9 mm; 10.3839 - 10.3500.
    assert lower.over_obvert_m == pytest.approx(0.0339, abs=0.00005)


@pytest.mark.parametrize(("name", "rate"), [("C1 lower", 12.35), ("C1 upper", 9.01), ("C2", 13.43)])
def test_free_rates(name: str, rate: float) -> None:
    """Full flow over the area above gives the free rate of each reach, worked by hand."""
    network = two_runs()
    line = water_line(network, 1.0)
    full = line.reaches[name].full_m3_per_s
    assert full / areas_above(network)[name] * 3.6e6 == pytest.approx(rate, abs=0.005)


# By hand: to keep the junction at 10.350 the 40 m of the lower run may rise 0.350 less the
# tailwater, so its rate is 12.352 x sqrt(rise / 0.200): 0.050 gives 6.18, 0.010 gives 2.76.
@pytest.mark.parametrize(
    ("tailwater_mm", "rate", "at"),
    [
        (None, 9.01, "C1 upper"),
        (10_000, 9.01, "C1 upper"),
        (10_200, 9.01, "C1 upper"),
        (10_300, 12.352 * sqrt(0.050 / 0.200), "C1 lower"),
        (10_340, 12.352 * sqrt(0.010 / 0.200), "C1 lower"),
        (10_350, 0.0, "C1 lower"),
        (10_400, 0.0, "C1 lower"),
    ],
)
def test_gate_by_tailwater(tailwater_mm: int | None, rate: float, at: str) -> None:
    """The upper run governs until the tailwater drowns the junction, from 10.350 on wholly."""
    gate = free_gate(two_runs(tailwater_mm))
    assert gate.rate_mm_per_h == pytest.approx(rate, abs=0.005)
    assert gate.at == at


def test_areas_add_up() -> None:
    """The flow at the outlet is the rate times the sum of the joined areas."""
    assert areas_above(two_runs()) == {"C1 lower": 3400.0, "C1 upper": 1600.0, "C2": 1200.0}


def test_unjoined_area() -> None:
    """What has no way to an outlet is passed on nowhere and has no water line."""
    stray = _reach("C3", "H3", "pit", 10, 10_000, 100, 100)
    network = two_runs()
    network = replace(
        network,
        reaches=(*network.reaches, stray),
        areas_m2={**network.areas_m2, "H3": 900.0},
    )
    assert areas_above(network) == areas_above(two_runs())
    assert reaches_an_outlet(network) == {"out", "J", "H1", "H2"}
    assert set(water_line(network, RATE).levels_m) == {"J", "H1", "H2"}


@pytest.mark.parametrize(
    ("match", "drop_mm", "invert_mm"),
    [(Match.OBVERT, 0, 10_250), (Match.INVERT, 0, 10_200), (Match.DROP, 30, 10_230)],
)
def test_match(match: Match, drop_mm: int, invert_mm: int) -> None:
    """A 100 mm pipe meets a 150 mm pipe by obvert 50 mm up, by invert level, or by its drop."""
    found = arriving_invert_nm(Fraction(10_200 * MM), 150 * MM, 100 * MM, match, drop_mm * MM)
    assert found == invert_mm * MM


@pytest.mark.parametrize(
    "reaches",
    [
        (_reach("a", "n", "n", 10, 0, 10, 100),),
        (_reach("a", "m", "n", 10, 0, 10, 100), _reach("b", "n", "m", 10, 0, 10, 100)),
        (_reach("a", "m", "n", 10, 0, 10, 100), _reach("b", "m", "o", 10, 0, 10, 100)),
        (_reach("a", "m", "n", 0, 0, 10, 100),),
    ],
)
def test_unsound(reaches: tuple[NetworkReach, ...]) -> None:
    """A run into itself, a circle, two ways on and a reach without length are refused."""
    with pytest.raises(CalculationInputError):
        reaches_from_outlets(Network(reaches, {"n": None}, {}))


def test_circle_of_three() -> None:
    """A circle is named in the order of the flow, without the runs that only lead into it."""
    assert circle_in({"a": "b", "b": "c", "c": "d", "d": "b"}) == ("b", "c", "d")
    assert circle_in({"a": "b", "c": "b", "b": "outlet"}) == ()


@pytest.mark.parametrize("fall_mm", [0, -50])
def test_flat_and_adverse(fall_mm: int) -> None:
    """A reach laid flat or adverse has no normal depth, runs full, and its free gate is none."""
    network = Network(
        (_reach("a", "H", "out", 20, 10_000, fall_mm, 100),), {"out": None}, {"H": 500.0}
    )
    water = water_line(network, RATE).reaches["a"]
    assert water.depth_m is None
    assert water.full_for_m == 20
    assert water.upper_m > 10.1
    # A line is on its limit within a nanometre, which a flat reach reaches at 0.002 mm/h.
    assert free_gate(network).rate_mm_per_h == pytest.approx(0, abs=0.01)


def test_a_flat_reach_without_water_bounds_nothing() -> None:
    """A flat reach through which nothing flows stands on its obvert and closes no gate."""
    network = two_runs()
    flat = _reach("C4", "H4", "H1", 7, 10_733, 0, 100)
    with_flat = replace(network, reaches=(*network.reaches, flat))
    assert free_gate(with_flat) == free_gate(network)


def test_level_gates() -> None:
    """Slits give freely and nothing comes up to where the level at their node is reached."""
    network = two_runs(10_300)
    floors = {"H1": 10_800 * MM}
    gate = level_gate(network, NetworkLimit.GIVES_FREELY, floors)
    # By hand: normal depth 70 mm of 100 is a share of 0.8372 of the full 4.004 L/s (a table of
    # part-full elements, any text on hydraulics): 3.352 L/s off 1600 m2.
    assert gate.rate_mm_per_h == pytest.approx(0.8372 * 4.004 / 1600 * 3600, abs=0.01)
    assert gate.at == "H1"
    # By hand: the junction may rise 0.700 over 40 m of the lower run, sqrt(3.5) x 12.352.
    gate = level_gate(network, NetworkLimit.COMES_UP, {"J": 11_000 * MM, "pit": 0})
    assert gate.rate_mm_per_h == pytest.approx(12.352 * sqrt(3.5), abs=0.01)
    assert gate.at == "J"
    dry = level_gate(network, NetworkLimit.COMES_UP, {"J": 100_000 * MM})
    # By hand: 89.7 m over 40 m of the lower run, sqrt(89.7 / 0.2) x 12.352.
    assert dry.rate_mm_per_h == pytest.approx(261.6, abs=0.05)
    assert dry.at == "J"
    assert level_gate(network, NetworkLimit.COMES_UP, {}).rate_mm_per_h == MOST_MM_PER_H


def test_capacity_gate() -> None:
    """An outlet's capacity is spread over all that is joined to it: 3.4 L/s over 3400 m2."""
    gate = capacity_gate(two_runs(), "out", 0.0034)
    assert gate.rate_mm_per_h == pytest.approx(3.6)
    assert (gate.limit, gate.at) == (NetworkLimit.CAPACITY, "out")


def test_no_area() -> None:
    """Where no area drains to a network it has no gate."""
    with pytest.raises(CalculationInputError, match="no area drains"):
        free_gate(replace(two_runs(), areas_m2={}))


def test_critical_fill_refuses() -> None:
    """A negative flow and a pipe without a bore have no critical depth."""
    for flow, bore in ((-1.0, M), (1.0, 0)):
        with pytest.raises(CalculationInputError, match="critical depth"):
            critical_fill(flow, bore)
    assert critical_fill(0.0, M) == 0


bores = st.sampled_from([75, 100, 150, 200, 300])


@st.composite
def networks(draw: st.DrawFn) -> Network:
    """Any tree of up to eight reaches, flat and adverse ones among them."""
    reaches: list[NetworkReach] = []
    levels = {"out": 10_000}
    areas: dict[str, float] = {}
    for number in range(draw(st.integers(1, 8))):
        lower = draw(st.sampled_from(sorted(levels)))
        name = f"n{number}"
        length, fall = draw(st.integers(1, 80)), draw(st.integers(-40, 900))
        bore, roughness = draw(bores), draw(st.sampled_from([0.01, 0.015, 0.02]))
        reaches.append(
            _reach(
                f"r{number}",
                name,
                lower,
                length,
                levels[lower] + draw(st.integers(0, 60)),
                fall,
                bore,
                roughness,
                lower != "out" and draw(st.booleans()),
            )
        )
        levels[name] = levels[lower] + fall
        areas[name] = float(draw(st.integers(0, 3000)))
    tailwater = draw(st.one_of(st.none(), st.integers(9_500, 10_800)))
    return Network(tuple(reaches), {"out": None if tailwater is None else tailwater * MM}, areas)


@given(networks(), st.randoms())
def test_flow_is_the_same_in_any_order(network: Network, random: Random) -> None:
    """The flow in each reach is the sum of what came in above it, whatever the order of entry."""
    areas = areas_above(network)
    last = sum(areas[one.reach_id] for one in network.reaches if one.lower == "out")
    assert last == pytest.approx(sum(network.areas_m2.values()))
    shuffled = list(network.reaches)
    random.shuffle(shuffled)
    assert areas_above(replace(network, reaches=tuple(shuffled))) == pytest.approx(areas)


def _is_higher(low: Network, low_rate: float, high: Network, high_rate: float) -> bool:
    before, after = water_line(low, low_rate), water_line(high, high_rate)
    return all(after.levels_m[node] >= level - 1e-9 for node, level in before.levels_m.items())


@given(networks(), st.floats(0, 60), st.floats(0, 60))
def test_line_rises_with_rate(network: Network, rate: float, more: float) -> None:
    """The water line rises with the rate at every node."""
    assert _is_higher(network, rate, network, rate + more)


@given(networks(), st.floats(0, 60), st.integers(0, 800))
def test_line_rises_with_tailwater(network: Network, rate: float, more_mm: int) -> None:
    """The water line rises with the tailwater at every node."""
    before = network.tailwaters_nm["out"]
    low = 9_000 * MM if before is None else before
    assert _is_higher(network, rate, replace(network, tailwaters_nm={"out": low}), rate)
    risen = replace(network, tailwaters_nm={"out": low + more_mm * MM})
    assert _is_higher(network, rate, risen, rate)


@given(networks(), st.floats(0, 60), st.floats(1, 2))
def test_line_rises_with_roughness(network: Network, rate: float, factor: float) -> None:
    """The water line rises with the roughness of the pipes at every node."""
    rougher = tuple(replace(one, roughness=one.roughness * factor) for one in network.reaches)
    assert _is_higher(network, rate, replace(network, reaches=rougher), rate)


@settings(max_examples=40)
@given(networks(), st.data())
def test_a_run_upstream_never_raises_a_gate(network: Network, data: st.DataObject) -> None:
    """Adding a run upstream never raises the gate."""
    network = replace(network, areas_m2={**network.areas_m2, "n0": 500.0})
    node = data.draw(st.sampled_from(sorted(network.areas_m2)))
    run = _reach("added", "new", node, 20, 11_000, 300, 100, is_joined=True)
    more = replace(
        network,
        reaches=(*network.reaches, run),
        areas_m2={**network.areas_m2, "new": data.draw(st.floats(0, 2000))},
    )
    before, after = free_gate(network).rate_mm_per_h, free_gate(more).rate_mm_per_h
    assert after <= before * (1 + 1e-9) + 1e-9


@settings(max_examples=40)
@given(networks())
def test_free_fall_without_losses(network: Network) -> None:
    """With free fall and no losses the gate is the least full flow over the area above."""
    steep: list[NetworkReach] = []
    levels = {"out": Fraction(0)}
    for one in network.reaches:  # each obvert above the one that it falls to
        low = levels[one.lower] + 400 * MM
        levels[one.upper] = low + max(one.grade * one.length_nm, Fraction(5 * MM))
        steep.append(replace(one, invert_lower_nm=low, invert_upper_nm=levels[one.upper]))
    areas = {**network.areas_m2, "n0": 500.0}
    free = Network(tuple(steep), {"out": None}, areas)
    above = areas_above(free)
    least = min(
        full_flow_m3_per_s(one.bore_nm, one.grade, one.roughness) / above[one.reach_id] * 3.6e6
        for one in steep
        if above[one.reach_id]
    )
    # A reach is held to its obvert within a nanometre, which a flat one feels.
    assert free_gate(free, NO_LOSS).rate_mm_per_h == pytest.approx(
        min(least, MOST_MM_PER_H), rel=1e-5
    )


def test_depth_is_that_of_the_part_full_pipe() -> None:
    """A reach that runs free has the depth that a part-full pipe has."""
    water = water_line(two_runs(), RATE).reaches["C2"]
    alone = part_full(water.flow_m3_per_s, 100 * MM, Fraction(1, 100), 0.015)
    assert water.depth_m == pytest.approx(alone.fill * 0.1)
