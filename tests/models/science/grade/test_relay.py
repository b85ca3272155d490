"""Least re-lay against a search of every set of kept shots."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.grade.profile import Shot
from models.science.grade.relay import NoRelay, RelayLimits, RelayPlan, least_relay
from models.science.levelling.laser_plane import GradeLine, Stationing, elevation_at_nm

UP, DOWN = Stationing.FROM_OUTLET, Stationing.FROM_HEAD
LEAST, MOST = Fraction(1, 20), Fraction(3, 20)
LIMITS = st.sampled_from(
    [
        RelayLimits(LEAST, MOST),
        RelayLimits(LEAST),
        RelayLimits(design=GradeLine(0, 0, Fraction(1, 10)), tolerance_nm=3),
        RelayLimits(LEAST, MOST, GradeLine(1, 0, Fraction(1, 10)), 4),
    ]
)
STEPS = st.lists(st.tuples(st.integers(5, 40), st.integers(-4, 8)), min_size=1, max_size=6)
TIE_INS = st.sets(st.integers(0, 6), max_size=2)


def profile(steps: list[tuple[int, int]]) -> list[Shot]:
    """Shots from steps of (length, rise)."""
    shots = [Shot(0, 0)]
    for length, rise in steps:
        shots.append(Shot(shots[-1].station_nm + length, shots[-1].elevation_nm + rise))
    return shots


def band(limits: RelayLimits, shot: Shot) -> tuple[Fraction, Fraction]:
    """Levels that tolerance allows at a shot."""
    if limits.design is None:
        return Fraction(-(10**9)), Fraction(10**9)
    level = elevation_at_nm(limits.design, shot.station_nm)
    return level - limits.tolerance_nm, level + limits.tolerance_nm


def can_lay(shots: list[Shot], kept: set[int], limits: RelayLimits) -> bool:
    """Walk up with the span of levels that can be reached; an empty span means no pipe."""
    low = high = Fraction(0)
    for index, shot in enumerate(shots):
        if index:
            run = shot.station_nm - shots[index - 1].station_nm
            low += limits.least * run
            high = high + limits.most * run if limits.most is not None else Fraction(10**9)
        floor, ceiling = band(limits, shot)
        low, high = max(low, floor), min(high, ceiling)
        if index in kept:
            level = Fraction(shot.elevation_nm)
            low, high = max(low, level), min(high, level)
        if low > high:
            return False
    return True


def brute_force(shots: list[Shot], fixed: set[int], limits: RelayLimits) -> int | None:
    """Least length disturbed over every set of kept shots, None when no set will do."""
    best: int | None = None
    free = [index for index in range(len(shots)) if index not in fixed]
    for size in range(len(free) + 1):
        for chosen in combinations(free, size):
            kept = fixed | set(chosen)
            if can_lay(shots, kept, limits):
                length = disturbed(shots, kept)
                best = length if best is None else min(best, length)
    return best


def disturbed(shots: list[Shot], kept: set[int]) -> int:
    """Length of the reaches that have an end which is not kept."""
    return sum(
        shots[i + 1].station_nm - shots[i].station_nm
        for i in range(len(shots) - 1)
        if not {i, i + 1} <= kept
    )


def assert_within(plan: RelayPlan, shots: list[Shot], limits: RelayLimits) -> None:
    """Every reach and every shot of the plan satisfies the limits."""
    laid = list(zip(shots, plan.levels_nm, strict=True))
    for (one, one_nm), (other, other_nm) in pairwise(laid):
        grade = Fraction(other_nm - one_nm) / (other.station_nm - one.station_nm)
        assert grade >= limits.least
        assert limits.most is None or grade <= limits.most
    for shot, level in laid:
        low, high = band(limits, shot)
        assert low <= level <= high


@settings(max_examples=300)
@given(STEPS, LIMITS, TIE_INS)
def test_the_plan_is_the_best_of_all(
    steps: list[tuple[int, int]], limits: RelayLimits, tie_ins: set[int]
) -> None:
    """Nothing shorter exists, the result is within limits, and fixed shots stay."""
    shots = profile(steps)
    tie_ins = {index for index in tie_ins if index < len(shots)}
    plan = least_relay(shots, UP, limits, tie_ins)
    best = brute_force(shots, {0, *tie_ins}, limits)
    if best is None:
        assert isinstance(plan, NoRelay)
        return
    assert isinstance(plan, RelayPlan)
    assert plan.disturbed_nm == best == disturbed(shots, set(plan.kept))
    assert plan.disturbed_nm <= shots[-1].station_nm
    assert {0, *tie_ins} <= set(plan.kept)
    assert all(plan.moves_nm[index] == 0 for index in plan.kept)
    assert [s.elevation_nm + m for s, m in zip(shots, plan.moves_nm, strict=True)] == list(
        plan.levels_nm
    )
    assert_within(plan, shots, limits)


@given(STEPS)
def test_stations_from_the_head_give_the_mirror_image(steps: list[tuple[int, int]]) -> None:
    """Counting stations from the other end disturbs the same length and moves the same shots."""
    shots, limits = profile(steps), RelayLimits(LEAST, MOST)
    length = shots[-1].station_nm
    mirrored = [Shot(length - s.station_nm, s.elevation_nm) for s in reversed(shots)]
    plan, mirror = least_relay(shots, UP, limits), least_relay(mirrored, DOWN, limits)

    assert isinstance(plan, RelayPlan)
    assert isinstance(mirror, RelayPlan)
    assert mirror.moves_nm == plan.moves_nm[::-1]
    assert mirror.disturbed_nm == plan.disturbed_nm


def test_a_good_pipe_is_left_alone() -> None:
    """Nothing is disturbed where every reach is right."""
    plan = least_relay(profile([(10, 1), (10, 1)]), UP, RelayLimits(LEAST, MOST))

    assert plan == RelayPlan((0, 1, 2), (0, 1, 2), (0, 0, 0), 0)


def test_two_fixed_points_on_a_wrong_grade_are_named() -> None:
    """By hand: up 3 in 20 is steeper than 1 in 10, and neither end can move."""
    shots = profile([(10, 1), (10, 2), (10, 1)])

    assert least_relay(shots, UP, RelayLimits(LEAST, Fraction(1, 10)), {2}) == NoRelay(
        0, 20, "both points are fixed and the grade between them is out of limits"
    )


@pytest.mark.parametrize(("count", "tie_ins"), [(1, set()), (3, {3}), (3, {-1})])
def test_a_request_that_makes_no_sense_is_refused(count: int, tie_ins: set[int]) -> None:
    """One shot is no pipe, and a tie-in is one of the shots."""
    with pytest.raises(CalculationInputError):
        least_relay(profile([(10, 1)] * (count - 1)), UP, RelayLimits(), tie_ins)
