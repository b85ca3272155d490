"""Ramps of a round blade, by hand and by slices."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.science.slits.ramps import Ramp

IN = 25_400_000
INCHES = Ramp(18 * IN, 9 * IN)
METRIC = Ramp(450_000_000, 230_000_000)


def test_a_blade_of_18_in_at_9_in() -> None:
    """Worked by hand with the formulas of a circle: ramp, shortest cut, area, half an inch less."""
    assert round(INCHES.length_nm / IN, 3) == 15.588
    assert round(INCHES.shortest_nm / IN, 2) == 31.18
    assert round(INCHES.missing_nm2 / IN**2, 3) == 40.798
    assert round(INCHES.missing_nm2 / IN**2 / 9, 3) == 4.533
    assert [round(INCHES.depth_at_nm(u * IN) / IN, 2) for u in (3, 6, 9, 12)] == [
        3.87,
        6.23,
        7.75,
        8.64,
    ]
    assert round(INCHES.within_from_nm(IN // 2) / IN, 2) == 11.38


def test_a_blade_of_450_mm_at_230_mm() -> None:
    """Worked by hand: 392.556 mm, 785.1 mm, 26 146 mm2, as much as 113.7 mm of full slit."""
    assert round(METRIC.length_nm, -3) == 392_556_000
    assert round(METRIC.shortest_nm / 1e6, 1) == 785.1
    assert round(METRIC.missing_nm2 / 1e12) == 26_146
    assert round(METRIC.missing_nm2 / 1e12 / 230, 1) == 113.7


def test_a_blade_of_no_radius_cuts_square_ends() -> None:
    """Nothing changes for a blade that nobody measured."""
    square = Ramp(0, 9 * IN)

    assert (square.length_nm, square.shortest_nm, square.missing_nm2) == (0, 0, 0)
    assert square.depth_at_nm(0) == 9 * IN
    assert square.within_from_nm(IN) == 0


@given(st.integers(50_000_000, 900_000_000), st.floats(0.02, 1.6))
def test_the_area_missing_is_that_of_slices(radius_nm: int, share: float) -> None:
    """A thousand slices of the depth at their middles give the closed form; so with deep blades."""
    ramp = Ramp(radius_nm, round(radius_nm * share))
    slices = 1000
    step = ramp.length_nm / slices
    depths = [ramp.depth_at_nm(round((k + 0.5) * step)) for k in range(slices)]

    missing = sum(ramp.depth_nm - depth for depth in depths) * step

    assert ramp.missing_nm2 == pytest.approx(missing, rel=2e-3)


@given(
    st.integers(50_000_000, 900_000_000),
    st.integers(10_000_000, 400_000_000),
    st.integers(0, 50_000_000),
)
def test_a_ramp_grows_with_depth_and_never_beyond_the_radius(
    radius_nm: int, depth_nm: int, more_nm: int
) -> None:
    """A deeper blade needs more room to get there."""
    here, deeper = Ramp(radius_nm, depth_nm), Ramp(radius_nm, depth_nm + more_nm)

    assert here.length_nm <= deeper.length_nm <= radius_nm


@given(st.integers(100_000_000, 900_000_000), st.floats(0.05, 0.95), st.floats(0.01, 0.9))
def test_within_tolerance_begins_where_the_depth_is_just_allowed(
    radius_nm: int, share: float, lacking: float
) -> None:
    """At that place the depth lacks what is allowed, to what a rounded nanometre changes there."""
    ramp = Ramp(radius_nm, round(radius_nm * share))
    under_nm = round(ramp.depth_nm * lacking)

    place_nm = ramp.within_from_nm(under_nm)

    steepest = ramp.length_nm / sqrt(radius_nm**2 - ramp.length_nm**2)
    assert abs(ramp.depth_nm - under_nm - ramp.depth_at_nm(place_nm)) <= 1 + 2 * steepest


def test_outside_a_cut_nothing_is_deep() -> None:
    """Before its end the turf is whole, beyond the ramp the depth is full, at the end it begins."""
    assert INCHES.depth_at_nm(-1) == 0
    assert INCHES.depth_at_nm(0) == 0
    assert INCHES.depth_at_nm(10**10) == 9 * IN
    assert INCHES.within_from_nm(9 * IN) == 0
    assert Ramp(IN, 5 * IN).within_from_nm(2 * IN) == 0
