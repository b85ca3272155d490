"""Hooghoudt's equivalent depth, and the spacing and flow that rest on it: laws and refusals."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.water.hooghoudt import (
    DrainedSoil,
    equivalent_depth,
    soil_discharge,
    soil_spacing,
)

DEPTH, RADIUS = st.floats(0, 20), st.floats(0.01, 0.2)
SPACING = st.floats(2, 200)  # at least ten radii
SOIL = DrainedSoil(conductivity=0.14, head=0.8, depth_below=5, radius=0.1)


@given(DEPTH, SPACING, RADIUS)
@example(depth=5e-324, spacing=2.0, radius=0.125)
def test_equivalent_depth_is_never_more_than_the_true_one(
    depth: float, spacing: float, radius: float
) -> None:
    """And it grows with the spacing, as a drain's own crowding counts for less."""
    found = equivalent_depth(depth, spacing, radius)

    assert 0 <= found <= depth
    assert found <= equivalent_depth(depth, spacing * 1.1, radius) * (1 + 1e-3)


def test_both_ways_to_reckon_the_crowding_meet() -> None:
    """At x = 0.5 the closed form and the series give the same depth to a ten-thousandth."""
    spacing = 4 * 3.141592653589793 * 5
    shallow, deep = (equivalent_depth(5, spacing * by, 0.1) for by in (1.000001, 0.999999))

    assert shallow == pytest.approx(deep, rel=1e-4)


@given(st.floats(0.001, 20), st.floats(0.0001, 0.139))
def test_spacing_and_flow_undo_each_other(depth: float, discharge: float) -> None:
    """At the widest spacing the soil carries just what was asked of it."""
    soil = replace(SOIL, depth_below=depth)
    spacing = soil_spacing(soil, discharge)

    assert spacing is not None
    assert soil_discharge(soil, spacing) == pytest.approx(discharge, rel=1e-6)


def test_rain_faster_than_the_soil_lets_in_has_no_spacing() -> None:
    """0.14 m/d is the limit, and on it there still is one."""
    assert soil_spacing(SOIL, 0.1401) is None
    assert soil_spacing(SOIL, 0.14) is not None


@pytest.mark.parametrize(
    "figures", [(-1.0, 20.0, 0.1), (5.0, 0.0, 0.1), (5.0, 20.0, 0.0), (5.0, 20.0, -0.1)]
)
def test_impossible_depths_are_refused(figures: tuple[float, float, float]) -> None:
    """A depth below zero, no spacing, no radius."""
    with pytest.raises(CalculationInputError, match="equivalent depth below drains"):
        equivalent_depth(*figures)


@pytest.mark.parametrize("soil", [replace(SOIL, head=0), replace(SOIL, conductivity=-1)])
def test_soil_that_is_none_is_refused(soil: DrainedSoil) -> None:
    """Without a head nothing flows, and no soil conducts less than nothing."""
    with pytest.raises(CalculationInputError, match="flow to drains"):
        soil_spacing(soil, 0.001)
