"""Percents beside a limit never say what the figure does not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.science.quality.acceptance import lot_figures
from models.units.percent import exact_percent, percent_beside_limits
from sync.papers.wording.measures import percent, within_limits

LIMITS = (Fraction(90), Fraction("92.5"), Fraction(110))
HUNDREDTHS = range(8_900, 11_200)


def test_pwl_of_89_96_does_not_read_90() -> None:
    """Neither on paper nor in the workbook; 90 itself does, also as floats have it."""
    assert within_limits(89.96) == ("89 %", 89.9)
    assert within_limits(90.0) == ("90 %", 90.0)
    assert within_limits(89.99999999999999) == ("90 %", 90.0)
    assert within_limits(99.97) == ("99 %", 99.9)


@pytest.mark.parametrize("places", [0, 1, 2])
@pytest.mark.parametrize("limit", LIMITS)
def test_what_is_shown_meets_a_limit_just_when_the_figure_does(
    limit: Fraction, places: int
) -> None:
    """Every hundredth from 89 to 112, and its neighbours, under a least and under a most."""
    for hundredths in HUNDREDTHS:
        for share in (Fraction(hundredths, 100), Fraction(hundredths * 10**6 + 1, 10**8)):
            below = Fraction(percent_beside_limits(share, low=limit, places=places))
            above = Fraction(percent_beside_limits(share, high=limit, places=places))
            assert (below >= limit) == (share >= limit)
            assert (above <= limit) == (share <= limit)
            assert below <= share <= above


@given(
    st.fractions(0, 200, max_denominator=10**6),
    st.integers(0, 1000),
    st.integers(0, 1000),
)
def test_between_two_limits(share: Fraction, low: int, more: int) -> None:
    """Limits in tenths, as a plan has them: what is shown lies where the share lies."""
    least, most = Fraction(low, 10), Fraction(low + more, 10)
    shown = Fraction(percent_beside_limits(share, least, most))
    assert (shown < least, shown > most) == (share < least, share > most)


@given(st.lists(st.integers(200, 240), min_size=3, max_size=12))
def test_every_lot_is_told_no_better_than_it_is(depths: list[int]) -> None:
    """Percent within limits of many lots, beside every whole limit it could be held to."""
    estimate = lot_figures(depths, 210, 230).percent_within
    assert estimate is not None
    words, figure = within_limits(estimate)
    assert figure is not None
    told = int(words.removesuffix(" %"))
    assert told <= Fraction(str(figure)) <= exact_percent(estimate)
    assert all((told >= limit) == (exact_percent(estimate) >= limit) for limit in range(101))


def test_shares_of_a_whole_are_all_only_when_all_is_there() -> None:
    """100 % is all and no more: 99.9 is 99, 100.1 is 101."""
    shown = [percent(part, 1000) for part in (898, 899, 900, 999, 1000, 1001, 1100, 1101)]
    assert shown == ["89 %", "89 %", "90 %", "99 %", "100 %", "101 %", "110 %", "111 %"]
