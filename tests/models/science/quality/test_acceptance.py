"""Lots of readings and drift."""

from __future__ import annotations

from fractions import Fraction
from statistics import stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.quality.acceptance import incomplete_beta, lot_figures, percent_within
from models.science.quality.drift import Side, find_drifts

READINGS = st.lists(st.integers(-1000, 1000), min_size=1, max_size=60)


@given(READINGS)
def test_figures_are_those_of_the_standard_library(readings: list[int]) -> None:
    """Mean, spread and share agree with another reckoning of them."""
    lot = lot_figures(readings, -500, 500)

    assert lot.mean_nm * lot.n == sum(readings)
    assert lot.share_inside == Fraction(sum(-500 <= r <= 500 for r in readings), len(readings))
    if len(readings) > 1:
        assert lot.sd_nm == pytest.approx(stdev(readings), abs=1e-9)
    else:
        assert lot.sd_nm is None


@given(st.integers(3, 60), st.floats(-5, 5), st.floats(0, 5))
def test_percent_within_grows_with_the_index(n: int, index: float, more: float) -> None:
    """A farther limit never lets less through, and both sides of the mean make a hundred."""
    here = percent_within(index, n)

    assert -1e-9 <= here <= percent_within(index + more, n) + 1e-9 <= 100 + 2e-9
    assert here + percent_within(-index, n) == pytest.approx(100, abs=1e-9)


@given(st.floats(0.001, 0.999), st.floats(0.5, 40), st.floats(0.5, 40))
def test_incomplete_beta_agrees_with_its_recurrence(x: float, a: float, b: float) -> None:
    """I_x(a, b) = x I_x(a - 1, b) + (1 - x) I_x(a, b - 1), one step up (handbook identity)."""
    left = incomplete_beta(x, a + 1, b + 1)
    right = x * incomplete_beta(x, a, b + 1) + (1 - x) * incomplete_beta(x, a + 1, b)

    assert left == pytest.approx(right, abs=1e-10)


@pytest.mark.parametrize(("low", "high", "percent"), [(8, 10, 100.0), (9, 10, 100.0), (10, 11, 0)])
def test_a_lot_without_spread_is_all_in_or_all_out(low: int, high: int, percent: float) -> None:
    """Four equal readings of 9 give no index; on the limit they are within."""
    assert lot_figures([9, 9, 9, 9], low, high).percent_within == percent


def test_without_limits_there_is_no_percentage() -> None:
    """A lot nobody set limits for is counted and not judged."""
    assert lot_figures([8, 9, 10]).percent_within is None


def test_an_empty_lot_is_refused() -> None:
    """There is no mean of nothing."""
    with pytest.raises(CalculationInputError):
        lot_figures([])
    with pytest.raises(CalculationInputError):
        percent_within(1.0, 2)


@given(st.lists(st.integers(-2, 2), max_size=40), st.integers(2, 6))
def test_drifts_are_the_longest_runs(readings: list[int], run: int) -> None:
    """Every reading of a drift is on its side, and its neighbours are not."""
    for drift in find_drifts(readings, 0, run):
        sign = -1 if drift.side is Side.BELOW else 1
        assert all(reading * sign > 0 for reading in readings[drift.first : drift.last + 1])
        ends = readings[max(drift.first - 1, 0) : drift.first]
        ends += readings[drift.last + 1 : drift.last + 2]
        assert all(reading * sign <= 0 for reading in ends)
        assert drift.n >= run


def test_a_one_sided_rule_watches_its_side_alone() -> None:
    """A blade that wears cuts shallow; a run of deep readings is not its fault."""
    readings = [10, 10, 10, 8, 8, 8]

    assert [d.side for d in find_drifts(readings, 9, 3)] == [Side.ABOVE, Side.BELOW]
    (drift,) = find_drifts(readings, 9, 3, Side.BELOW)
    assert (drift.first, drift.last) == (3, 5)
    assert drift.reason.startswith("3 readings in a row lie below target")
    assert "once in 8" in drift.reason


def test_a_run_of_one_is_refused() -> None:
    """Every reading would be a drift."""
    with pytest.raises(CalculationInputError):
        find_drifts([1], 0, 1)
