"""Sieve sheets and gravel: laws, agreement with the bands, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.materials.gradation import USGA_1993, Grain, judge_gradation
from models.science.materials.gravel import (
    GravelSizes,
    SandSizes,
    d15_range_um,
    judge_gravel,
    limits_of,
)
from models.science.materials.sieving import (
    PAN_UM,
    grain_shares,
    grain_size_um,
    shares_passing,
    shares_retained,
)
from models.science.quality.verdict import Verdict

SIEVES = (3400, 2000, 1000, 500, 250, 150, 53, 0)
WEIGHTS = st.lists(st.integers(0, 10**6), min_size=8, max_size=8).filter(any)


@given(WEIGHTS)
def test_a_sheet_comes_to_a_hundred(weights: list[int]) -> None:
    """Shares retained add up to all, and what passes the finest sieve is the pan."""
    retained = shares_retained(dict(zip(SIEVES, weights, strict=True)))
    passing = shares_passing(retained)

    assert sum(retained.values()) == 100
    assert passing[53] == retained[0]
    assert list(passing.values()) == sorted(passing.values(), reverse=True)


@given(WEIGHTS, st.integers(1, 99))
def test_a_grain_size_lies_between_its_sieves(weights: list[int], percent: int) -> None:
    """The sieves on either side of a grain size pass less and more than its share."""
    passing = shares_passing(shares_retained(dict(zip(SIEVES, weights, strict=True))))
    size = grain_size_um(passing, percent)
    if size is None:
        assert not min(passing.values()) <= percent <= max(passing.values())
        return

    assert all(share <= percent for um, share in passing.items() if um < size)
    assert all(share >= percent for um, share in passing.items() if um > size)


def test_a_sheet_rounded_in_print_is_taken() -> None:
    """Shares that come to 99 or 101 are those of a printed sheet."""
    for last in (49, 51):
        passing = shares_passing({500: Fraction(50), PAN_UM: Fraction(last)})
        assert passing == {500: Fraction(50)}


def test_a_grain_size_may_lie_on_a_sieve() -> None:
    """A share that a sieve passes exactly has the opening of that sieve; a plateau its fine end."""
    sheet = {1000: Fraction(80), 500: Fraction(20), 355: Fraction(20), 250: Fraction(5)}

    assert [grain_size_um(sheet, percent) for percent in (5, 20, 80)] == [250, 355, 1000]
    assert grain_size_um(sheet, 81) is None


def test_larger_shares_have_larger_grains() -> None:
    """D15, D50, D85 and D90 of a plain sand stand in order."""
    passing = shares_passing(shares_retained({1000: 10, 500: 40, 250: 40, 150: 8, 0: 2}))
    sizes = [grain_size_um(passing, percent) for percent in (15, 50, 85, 90)]

    assert sizes == sorted(size for size in sizes if size is not None)


def test_a_sheet_is_judged_by_its_bands() -> None:
    """Weights go through shares and fractions to a verdict; the pan tells no silt from clay."""
    weights = {3400: 0, 2000: 2, 1000: 9, 500: 30, 355: 20, 250: 20, 150: 14, 53: 3, 0: 2}
    shares = grain_shares(shares_retained(weights))
    verdicts = [result.verdict for result in judge_gradation(shares, USGA_1993)]

    assert shares[Grain.MEDIUM] == 40
    assert shares[Grain.VERY_FINE] == 3
    assert verdicts[:5] == [Verdict.OK, Verdict.OUT, Verdict.OK, Verdict.OK, Verdict.OK]
    assert verdicts[5:] == [Verdict.NOT_MEASURED] * 3


def test_a_missing_sieve_leaves_its_fractions_out() -> None:
    """Without the 250 um sieve neither medium nor fine sand is known."""
    weights = {2000: 1, 1000: 1, 500: 1, 150: 1, 53: 1, 0: 1}
    shares = grain_shares(shares_retained(weights))

    assert set(shares) == {Grain.VERY_COARSE, Grain.COARSE, Grain.VERY_FINE}


def test_what_was_not_measured_is_not_judged() -> None:
    """A gravel of which nothing is known passes nothing and fails nothing."""
    results = judge_gravel(GravelSizes(None, None), SandSizes(None, 1), limits_of(USGA_1993))

    assert {result.verdict for result in results} == {Verdict.NOT_MEASURED}
    assert d15_range_um(SandSizes(None, 1), limits_of(USGA_1993)) is None


@pytest.mark.parametrize(
    "call",
    [
        lambda: shares_retained({500: 0}),
        lambda: shares_retained({500: 2, 250: -1}),
        lambda: shares_retained({-500: 2}),
        lambda: shares_passing({500: Fraction(98)}),
        lambda: shares_passing({500: Fraction(102)}),
        lambda: shares_passing({500: Fraction(101), 250: Fraction(-1)}),
        lambda: grain_size_um({500: Fraction(10), 250: Fraction(20)}, 15),
        lambda: judge_gravel(GravelSizes(0, 1), SandSizes(1, 1), limits_of(USGA_1993)),
        lambda: limits_of("USGA 1899"),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]
