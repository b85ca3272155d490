"""The law of the interleave, for any machine."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError, InterleaveError
from models.science.layout.interleave import Interleave, Machine, interleave
from tests.models.science.plots import IN


@given(legs=st.integers(1, 9), shifts=st.integers(1, 12), blocks=st.integers(1, 5))
def test_blocks_leave_an_unbroken_run(legs: int, shifts: int, blocks: int) -> None:
    """Every line is cut by one leg, once, and at the offset b n D + j s + i D."""
    spacing = 16 * IN
    pattern = Interleave(legs, shifts)
    offsets = [
        block * legs * shifts * spacing + shift * spacing + leg * shifts * spacing
        for block in range(blocks)
        for shift in range(shifts)
        for leg in range(legs)
    ]

    assert sorted(offsets) == [line * spacing for line in range(blocks * legs * shifts)]
    for line in range(blocks * legs * shifts):
        place = pattern.place_of(line)
        along = place.block * legs * shifts + place.shift + place.leg * shifts
        assert along == line == pattern.line_at(place)
        assert place.shift < shifts
        assert place.leg < legs


def test_two_legs_at_four_feet_make_three_passes_at_sixteen_inches() -> None:
    """Six slits over 8 ft, then the jump (common practice, no source)."""
    pattern = interleave(Machine(2, 48 * IN), 16 * IN)

    assert pattern == Interleave(2, 3)
    assert [pattern.place_of(line)[:2] for line in (0, 1, 2, 3, 6)] == [
        (0, 0),
        (0, 1),
        (0, 2),
        (0, 0),
        (1, 0),
    ]


def test_one_leg_serves_any_spacing() -> None:
    """A machine of one leg cuts lines at any spacing, since it has no leg spacing."""
    assert interleave(Machine(1, 7), 16 * IN) == Interleave(1, 1)


@pytest.mark.parametrize(
    ("leg_in", "spacing_in", "near_spacing_in", "near_leg_in"),
    [(48, 15, 16, 45), (48, 20, 24, 40), (40, 16, 20, 48), (48, 7, 6, 49), (10, 16, 10, 16)],
)
def test_a_broken_ratio_is_refused_with_what_would_work(
    leg_in: int, spacing_in: int, near_spacing_in: float, near_leg_in: int
) -> None:
    """The offer is the nearest spacing that divides, and the nearest multiple for the legs."""
    with pytest.raises(InterleaveError) as caught:
        interleave(Machine(3, leg_in * IN), spacing_in * IN)

    near_nm, leg_nm = (
        caught.value.context[f"nearest_{name}_nm"] for name in ("spacing", "leg_spacing")
    )
    assert isinstance(near_nm, int)
    assert isinstance(leg_nm, int)
    assert leg_nm == near_leg_in * IN
    assert abs(near_nm - spacing_in * IN) <= abs(near_spacing_in - spacing_in) * IN
    assert interleave(Machine(3, leg_in * IN), near_nm)
    assert interleave(Machine(3, leg_nm), spacing_in * IN)
    assert "would work" in str(caught.value)


def test_a_prime_leg_spacing_is_refused_at_once() -> None:
    """A spacing with no divisor near is answered with the leg spacing itself, without a search."""
    with pytest.raises(InterleaveError) as caught:
        interleave(Machine(2, 1_219_200_007), 406_400_000)

    near_nm = caught.value.context["nearest_spacing_nm"]
    assert isinstance(near_nm, int)
    assert 1_219_200_007 % near_nm == 0


def test_one_nanometre_off_is_not_whole() -> None:
    """Exact, never by a float."""
    with pytest.raises(InterleaveError):
        interleave(Machine(2, 48 * IN + 1), 16 * IN)


@pytest.mark.parametrize(
    ("machine", "spacing"),
    [(Machine(0, 48 * IN), IN), (Machine(2, 0), IN), (Machine(2, 48 * IN), 0), (Machine(1), -1)],
)
def test_nothing_is_no_machine(machine: Machine, spacing: int) -> None:
    """Legs and spacings are above zero."""
    with pytest.raises(CalculationInputError):
        interleave(machine, spacing)
