"""Bellies: where water stands, how deep, and how much."""

from __future__ import annotations

from math import acos, pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.grade.bellies import find_bellies, held_volume_pl
from models.science.grade.profile import Shot
from models.science.levelling.laser_plane import Stationing

UP = Stationing.FROM_OUTLET
BORE_NM = 100_000_000
LEVELS = st.lists(st.integers(0, 150_000_000), min_size=1, max_size=12)


def shots_of(levels: list[int]) -> list[Shot]:
    """Shots a metre apart."""
    return [Shot(index * 10**9, level) for index, level in enumerate(levels)]


def test_a_fall_all_the_way_holds_nothing() -> None:
    """No belly where every reach falls to the outlet, or is flat."""
    assert find_bellies(shots_of([0, 5, 5, 9]), UP, BORE_NM) == []
    assert find_bellies([], UP, BORE_NM) == []


def test_a_belly_seen_from_the_head_is_the_same() -> None:
    """By hand: the mirror image of the example in the docstring."""
    shots = [Shot(0, 6), Shot(10, -2), Shot(20, 2), Shot(30, 0)]
    (belly,) = find_bellies(shots, Stationing.FROM_HEAD, 10)

    assert (belly.start_nm, belly.end_nm, belly.deepest_nm) == (5, 20, 10)
    assert (belly.depth_nm, belly.length_nm, belly.open_at_head) == (4, 15, False)


def test_two_bellies_are_told_apart_and_one_is_open() -> None:
    """By hand: sills at 0 and 3 m; the second never climbs out."""
    first, second = find_bellies(shots_of([50, 40, 60, 80, 70, 75]), UP, BORE_NM)

    assert (first.start_nm, first.end_nm, first.depth_nm) == (0, 1_500_000_000, 10)
    assert (second.start_nm, second.end_nm, second.depth_nm) == (3 * 10**9, 5 * 10**9, 10)
    assert (first.open_at_head, second.open_at_head) == (False, True)


def test_a_shot_at_sill_level_ends_a_belly() -> None:
    """Touching the sill parts two bellies, though the sill does not grow."""
    bellies = find_bellies(shots_of([5, 3, 5, 1, 5]), UP, BORE_NM)

    assert [belly.depth_nm for belly in bellies] == [2, 4]


@given(LEVELS)
def test_water_stands_at_every_shot_below_a_sill(levels: list[int]) -> None:
    """A shot lies in a belly exactly when a shot nearer the outlet is higher."""
    bellies = find_bellies(shots_of(levels), UP, BORE_NM)
    for index, level in enumerate(levels):
        at_nm, depth = index * 10**9, max(levels[: index + 1]) - level
        holding = [b for b in bellies if b.start_nm < at_nm <= b.end_nm and depth > 0]
        assert len(holding) == (1 if depth > 0 else 0)
        assert all(b.depth_nm >= depth for b in holding)


@given(LEVELS)
def test_no_belly_holds_more_than_its_full_pipe(levels: list[int]) -> None:
    """The volume is above nothing and below the bore times the length."""
    for belly in find_bellies(shots_of(levels), UP, BORE_NM):
        full_pl = pi * BORE_NM**2 / 4 * belly.length_nm / 1e12
        assert 0 <= belly.volume_pl <= full_pl * (1 + 1e-9) + 1


@given(st.integers(0, 150), st.integers(0, 150))
def test_closed_form_agrees_with_adding_thin_slices(one: int, other: int) -> None:
    """The midpoint rule over 4,000 slices comes to the same volume."""
    radius, slices, total = 50.0, 4000, 0.0
    for slice_ in range(slices):
        depth = min(one + (other - one) * (slice_ + 0.5) / slices, 2 * radius)
        over = radius - depth
        total += radius**2 * acos(over / radius) - over * sqrt(max(radius**2 - over**2, 0.0))
    mm = 1_000_000
    volume_pl = held_volume_pl(one * mm, other * mm, 10**9, 100 * mm)

    # Slices [mm2] along 1 m: 1 mm2 x 1000 mm = 1000 mm3 = 1e9 pl.
    assert volume_pl == pytest.approx(total / slices * 1e9, rel=1e-4, abs=1e4)


def test_half_full_pipe_holds_half() -> None:
    """By hand: half of pi/4 x 0.01 m2 x 2 m is 7.85398 L."""
    half = held_volume_pl(BORE_NM // 2, BORE_NM // 2, 2 * 10**9, BORE_NM)

    assert half / 1e12 == pytest.approx(7.853981634)


def test_shallow_water_joins_on_to_the_closed_form() -> None:
    """Shallow water grows with depth to the power 1.5 on both sides of where the series ends."""
    edge_nm = BORE_NM // 2000
    below = held_volume_pl(0, edge_nm * 99 // 100, 10**9, BORE_NM)
    above = held_volume_pl(0, edge_nm * 101 // 100, 10**9, BORE_NM)

    assert above / below == pytest.approx((101 / 99) ** 1.5, rel=1e-3)


def test_a_pipe_needs_a_bore() -> None:
    """Water held in no pipe is refused."""
    with pytest.raises(CalculationInputError):
        find_bellies(shots_of([1, 0]), UP, 0)
