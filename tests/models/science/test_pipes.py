"""Pipes: laws of Manning's formula, the as-laid run, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.grade.reach_grade import Reach
from models.science.quality.verdict import Verdict
from models.science.water.hooghoudt import DrainedGround, drain_discharge, drain_spacing
from models.science.water.manning import full_flow_m3_per_s, full_velocity_m_per_s
from models.science.water.part_full import (
    MOST_FLOW_FILL,
    MOST_FLOW_SHARE,
    Elements,
    PartFull,
    bisect,
    hydraulic_elements,
    part_full,
)
from models.science.water.pipe_run import VelocityWarning, run_flows, velocity_warnings, worst_reach

BORE = st.integers(10**7, 10**9)
GRADE = st.fractions(Fraction(1, 10_000), Fraction(1, 5))
ROUGH = st.floats(0.008, 0.03)
SIZE = st.floats(0.1, 100)


@given(BORE, GRADE, ROUGH, st.floats(0.001, 1))
def test_depth_found_carries_the_flow(
    bore_nm: int, grade: Fraction, n: float, of_most: float
) -> None:
    """Depth for a flow, and flow at that depth, undo each other on both branches."""
    full = full_flow_m3_per_s(bore_nm, grade, n)
    flow = full * MOST_FLOW_SHARE * of_most
    found = part_full(flow, bore_nm, grade, n)

    assert hydraulic_elements(found.fill).flow * full == pytest.approx(flow, rel=1e-9)
    assert found.fill <= MOST_FLOW_FILL
    assert (found.other_fill is not None) == (flow >= full)
    if found.other_fill is not None:
        assert MOST_FLOW_FILL <= found.other_fill <= 1
        assert hydraulic_elements(found.other_fill).flow * full == pytest.approx(flow, rel=1e-9)


def test_an_empty_pipe_and_a_full_one() -> None:
    """No flow is no depth; full flow has the full pipe for its second depth."""
    full = full_flow_m3_per_s(10**8, 0.005, 0.015)
    brim = part_full(full, 10**8, 0.005, 0.015)

    assert hydraulic_elements(0) == Elements(0.0, 0.0, 0.0, 0.0)
    assert part_full(0, 10**8, 0.005, 0.015) == PartFull(0.0, None, 0.0)
    assert part_full(0, 10**8, 0, 0.015) == PartFull(0.0, None, 0.0)
    assert brim.other_fill == pytest.approx(1, abs=1e-9)
    assert brim.fill == pytest.approx(0.82, abs=0.001)


def test_too_much_flow_is_told_what_would_do() -> None:
    """The refusal names the most that the pipe carries, and that much is taken."""
    most = full_flow_m3_per_s(10**8, 0.005, 0.015) * MOST_FLOW_SHARE

    with pytest.raises(CalculationInputError, match=f"from 0 to {most:.3g} m3/s"):
        part_full(most * 1.001, 10**8, 0.005, 0.015)
    assert part_full(most, 10**8, 0.005, 0.015).fill == pytest.approx(MOST_FLOW_FILL)


def test_no_fill_carries_more_than_the_most() -> None:
    """Ten thousand depths, none of which beats the one found by the derivative."""
    flows = [hydraulic_elements(step / 10_000).flow for step in range(10_001)]

    assert max(flows) <= MOST_FLOW_SHARE
    assert max(flows) == pytest.approx(MOST_FLOW_SHARE, rel=1e-7)


@given(st.floats(0, 1))
def test_water_and_air_fill_the_pipe(fill: float) -> None:
    """The wetted area of a fill and of what is left over it make the whole pipe."""
    both = hydraulic_elements(fill).area + hydraulic_elements(1 - fill).area

    assert both == pytest.approx(1, abs=1e-9)


@given(st.lists(st.integers(-50, 200), min_size=1, max_size=8))
def test_worst_reach_is_the_flattest(falls: list[int]) -> None:
    """With one bore the reach with the least grade governs; adverse ones carry nothing."""
    reaches = [
        Reach(i * 10_000, (i + 1) * 10_000, fall, Verdict.OK) for i, fall in enumerate(falls)
    ]
    worst = worst_reach(run_flows(reaches, 10**8, 0.015))

    assert max(0, worst.reach.fall_nm) == max(0, min(falls))
    assert (worst.flow_m3_per_s == 0) == (min(falls) <= 0)


@pytest.mark.parametrize(
    ("velocity", "takes_silt", "warned"),
    [
        (0.4999, False, [VelocityWarning.SETTLES]),
        (0.5, False, []),
        (0.5, True, [VelocityWarning.SILT_SETTLES]),
        (1.3999, True, [VelocityWarning.SILT_SETTLES]),
        (1.4, True, []),
        (0.2, True, [VelocityWarning.SETTLES]),
        (10, True, []),
        (10.01, False, [VelocityWarning.WEARS]),
    ],
)
def test_velocity_is_warned_of(
    velocity: float, takes_silt: bool, warned: list[VelocityWarning]
) -> None:
    """On a limit is within it; feet a second."""
    assert velocity_warnings(velocity * 0.3048, takes_silt) == warned


@given(SIZE, SIZE, SIZE, SIZE, SIZE)
def test_spacing_and_discharge_undo_each_other(
    above: float, below: float, depth: float, head: float, spacing: float
) -> None:
    """Hooghoudt forth and back gives the spacing again."""
    ground = DrainedGround(above, below, depth, head)

    assert drain_spacing(ground, drain_discharge(ground, spacing)) == pytest.approx(spacing)


def test_bisection_finds_falling_and_rising_roots() -> None:
    """The root is found whichever way the function runs, to the last float."""
    assert bisect(lambda x: x - 1 / 3, 0, 1) == pytest.approx(1 / 3, rel=1e-15)
    assert bisect(lambda x: 1 / 3 - x, 0, 1) == pytest.approx(1 / 3, rel=1e-15)


@pytest.mark.parametrize(
    "call",
    [
        lambda: full_velocity_m_per_s(0, 1, 0.015),
        lambda: full_velocity_m_per_s(1, 1, 0),
        lambda: hydraulic_elements(1.01),
        lambda: hydraulic_elements(-0.01),
        lambda: part_full(-1, 10**8, 0.01, 0.015),
        lambda: part_full(1, 10**8, 0.01, 0.015),
        lambda: part_full(1e-9, 10**8, 0, 0.015),
        lambda: worst_reach([]),
        lambda: drain_discharge(DrainedGround(1, 1, 1, 1), 0),
        lambda: drain_discharge(DrainedGround(1, 1, 1, 0), 1),
        lambda: drain_spacing(DrainedGround(-1, 1, 1, 1), 1),
        lambda: drain_spacing(DrainedGround(1, 1, 1, 1), 0),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]
