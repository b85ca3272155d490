"""Sand: what is refused, and laws of the quantities."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.calculations.bulking import bulking
from models.calculations.gradation import USGA_1993, Grain, judge_gradation
from models.calculations.sand import (
    KG_PER_M3,
    bulk_density,
    length_for_mass_nm,
    placed_ratio,
    sand_mass_ug,
    slit_volume_pl,
)
from models.calculations.verdict import Verdict, judge
from models.errors import CalculationInputError

SIZE = st.integers(10_000_000, 500_000_000)


@given(SIZE, SIZE, st.integers(10**9, 10**12), st.integers(800, 2000))
def test_a_load_fills_the_length_it_was_ordered_for(
    width_nm: int, depth_nm: int, length_nm: int, kilograms: int
) -> None:
    """Mass for a length and length for a mass undo each other to a nanometre."""
    density = kilograms * KG_PER_M3
    mass_ug = sand_mass_ug(slit_volume_pl(width_nm, depth_nm, length_nm), density)

    assert abs(length_for_mass_nm(mass_ug, density, width_nm, depth_nm) - length_nm) <= 200


def test_placed_ratio_is_judged_on_its_limit_exactly() -> None:
    """Nine for ten stands on a limit of 0.9."""
    ratio = placed_ratio(9, 10)

    assert judge(ratio, Fraction(9, 10), Fraction(11, 10)) is Verdict.OK
    assert judge(ratio - Fraction(1, 10**9), Fraction(9, 10)) is Verdict.OUT


@pytest.mark.parametrize(
    "call",
    [
        lambda: slit_volume_pl(0, 1, 1),
        lambda: slit_volume_pl(10, 10, 10, 12),
        lambda: bulk_density(1, 1, 1),
        lambda: bulk_density(2, 1, 0),
        lambda: placed_ratio(1, 0),
        lambda: bulking(160, 200),
        lambda: bulking(160, 0),
        lambda: length_for_mass_nm(1, Fraction(0), 1, 1),
        lambda: judge_gradation({}, "USGA 2099"),
        lambda: judge_gradation({Grain.FINE: Fraction(-1)}, USGA_1993),
        lambda: judge_gradation({Grain.FINE: Fraction(60), Grain.COARSE: Fraction(60)}, USGA_1993),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]


def test_an_unmeasured_fraction_is_not_a_pass() -> None:
    """An empty lab sheet is not yet measured in every band."""
    verdicts = {result.verdict for result in judge_gradation({}, USGA_1993)}

    assert verdicts == {Verdict.NOT_MEASURED}
