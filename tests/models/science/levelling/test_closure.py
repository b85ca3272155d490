"""Allowable misclosure, and how a correction is shared out."""

from __future__ import annotations

from math import isqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.levelling.adjustment import AdjustBy, adjust_run, share_correction
from models.science.levelling.closure import (
    ALLOWANCES,
    Allowance,
    AllowanceKind,
    allowed_nm,
    is_allowed,
)
from models.science.levelling.level_run import Sight
from models.science.levelling.reduction import reduce_levels

FIXED = Allowance("fixed", AllowanceKind.FIXED, 10)
BY_SETUPS = Allowance("setups", AllowanceKind.SETUPS, 10)
BY_ROOT = Allowance("root", AllowanceKind.ROOT_SETUPS, 10)
WEIGHTS = st.lists(st.integers(1, 10**12), min_size=1, max_size=20)


@pytest.mark.parametrize(
    ("rule", "setups", "limit"), [(FIXED, 9, 10), (BY_SETUPS, 9, 90), (BY_ROOT, 9, 30)]
)
def test_allowance_by_kind(rule: Allowance, setups: int, limit: int) -> None:
    """On the limit is within, one nanometre more is not, in either sign."""
    assert allowed_nm(rule, None, setups) == limit
    assert is_allowed(limit, rule, None, setups)
    assert is_allowed(-limit, rule, None, setups)
    assert not is_allowed(limit + 1, rule, None, setups)


BY_DISTANCE = sorted(
    name for name, rule in ALLOWANCES.items() if rule.kind is AllowanceKind.ROOT_DISTANCE
)


def test_rules_by_setups_are_those_by_distance_at_the_longest_sights() -> None:
    """By hand: 0.05 x sqrt(300 / 5280) = 0.01192 ft; 12 x sqrt(0.09) = 3.6 mm."""
    feet, metres = ALLOWANCES["0.012ft-setup"], ALLOWANCES["3.6mm-setup"]
    by_mile = allowed_nm(ALLOWANCES["0.05ft-mile"], 300 * 304_800_000)

    assert 0 <= allowed_nm(feet, None, 1) - by_mile < 30_480
    assert allowed_nm(metres, None, 1) == allowed_nm(ALLOWANCES["third"], 90 * 10**9) == 3_600_000
    assert allowed_nm(feet, None, 4) == 2 * allowed_nm(feet, None, 1)


@given(st.integers(1, 10**15), st.sampled_from(BY_DISTANCE))
def test_the_shown_allowance_is_the_one_applied(distance_nm: int, name: str) -> None:
    """The figure printed is the largest whole misclosure that passes."""
    rule = ALLOWANCES[name]
    limit = allowed_nm(rule, distance_nm)

    assert is_allowed(limit, rule, distance_nm)
    assert not is_allowed(limit + 1, rule, distance_nm)
    assert limit == isqrt(rule.amount_nm**2 * distance_nm // rule.per_nm)


def test_a_rule_by_distance_needs_one() -> None:
    """No distance is never taken as no allowance."""
    with pytest.raises(CalculationInputError):
        is_allowed(0, ALLOWANCES["third"], None, 3)


@given(st.integers(-(10**9), 10**9), WEIGHTS)
def test_a_correction_closes_exactly(ec_nm: int, weights: list[int]) -> None:
    """The last running correction is -EC, and each is within half a nanometre of its share."""
    shares = share_correction(ec_nm, weights)
    done = 0
    for weight, share in zip(weights, shares, strict=True):
        done += weight
        assert abs(2 * (share * sum(weights) + ec_nm * done)) <= sum(weights)
    assert shares[-1] == -ec_nm


@pytest.mark.parametrize("weights", [[], [0, 0], [1, -1, 3]])
def test_a_correction_needs_weights(weights: list[int]) -> None:
    """Nothing to share over is refused, not divided by."""
    with pytest.raises(CalculationInputError):
        share_correction(5, weights)


def sights_with(distances: list[int | None]) -> list[Sight]:
    """A run of setups that each rise by one, ending on a point known to be at 100."""
    sights = [Sight("BM", bs_nm=2, known_nm=100)]
    last = len(distances) - 1
    for turn, distance in enumerate(distances):
        known = 100 if turn == last else None
        back = None if turn == last else 2
        sights.append(Sight(f"T{turn}", back, None, 1, known, distance))
    return sights


@given(st.lists(st.integers(1, 10**9), min_size=1, max_size=8), st.sampled_from(AdjustBy))
def test_an_adjusted_run_ends_on_the_known_point(distances: list[int], by: AdjustBy) -> None:
    """The adjusted last elevation is the known one to the nanometre; the start stays."""
    run = reduce_levels(sights_with(list(distances)))
    corrections = adjust_run(run, by)

    assert run.lines[-1].elevation_nm + corrections[-1] == 100
    assert corrections[0] == 0


def test_adjusting_by_distance_needs_every_distance() -> None:
    """A missing distance is named by its line."""
    run = reduce_levels(sights_with([5, None, 5]))

    with pytest.raises(CalculationInputError, match="line 3"):
        adjust_run(run, AdjustBy.DISTANCE)


def test_adjusting_by_distance_weighs_the_long_setup_more() -> None:
    """By hand: EC 2 over 300 and 100 is -1.5, rounded to even -2, then -2."""
    run = reduce_levels(sights_with([300, 100]))

    assert adjust_run(run, AdjustBy.DISTANCE) == [0, -2, -2]
    assert adjust_run(run, AdjustBy.SETUPS) == [0, -1, -2]


def test_intermediate_sights_carry_the_correction_of_their_setup() -> None:
    """By hand: the first setup takes -1 and the second -2, each with every sight from it."""
    sights = [Sight("BM", bs_nm=2, known_nm=100), Sight("I", is_nm=1), Sight("T", 2, None, 1)]
    run = reduce_levels([*sights, Sight("J", is_nm=2), Sight("E", fs_nm=1, known_nm=100)])

    assert adjust_run(run) == [0, -1, -1, -2, -2]


def test_a_run_is_held_at_every_known_point_and_carries_on() -> None:
    """By hand: EC 4 after two setups, then one setup beyond keeps -4."""
    sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("T", 5, None, 3)]
    sights += [Sight("K", 5, None, 3, known_nm=100), Sight("X", fs_nm=5)]

    assert adjust_run(reduce_levels(sights)) == [0, -2, -4, -4]


def test_a_leg_from_a_levelled_point_starts_with_its_correction() -> None:
    """By hand: the leg from T starts at -2 and must end at -5."""
    sights = [Sight("BM", bs_nm=5, known_nm=100), Sight("T", 5, None, 3)]
    sights += [Sight("K", fs_nm=3, known_nm=100), Sight("T", bs_nm=8), Sight("U", 4, None, 4)]
    run = reduce_levels([*sights, Sight("L", fs_nm=1, known_nm=104)])

    assert [closing.ec_nm for closing in run.closings] == [4, 5]
    assert adjust_run(run) == [0, -2, -4, -2, -4, -5]
