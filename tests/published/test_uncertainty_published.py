"""Rectangular errors and guard bands against the guides that define them."""

from __future__ import annotations

from fractions import Fraction
from math import erf, sqrt

import pytest

from models.science.levelling.uncertainty import (
    Level,
    curvature_nm,
    difference,
    guard_band_nm,
    known_error,
    reading_error,
    variance,
)
from models.science.quality.verdict import Z_OF, Verdict, judge_margin

FT_NM = 304_800_000


def test_rectangular_spreads() -> None:
    """JCGM 100:2008, 4.3.7 and 4.4.5, from memory, high confidence.

    Copper's expansion, in error by at most 0.40e-6: variance 53.3e-15, 0.23e-6. A
    temperature between 96 and 104 degrees Celsius: 2.3.
    """
    copper = variance({reading_error("expansion, in 1e-8", 40): 1})

    assert float(copper) / 1e16 == pytest.approx(53.3e-15, rel=1e-3)
    assert sqrt(copper) / 1e8 == pytest.approx(0.23e-6, abs=0.005e-6)
    assert sqrt(variance({reading_error("temperature", 4): 1})) == pytest.approx(2.3, abs=0.05)


def test_variances_of_independent_readings_add() -> None:
    """A set-up of two readings of 0.005 ft is good to 0.00707 ft, nine of them to 0.0212 ft.

    The law of propagation, as any text on adjustment works it; from memory, high confidence.
    """
    sigma = Fraction(FT_NM * 5, 1000)
    sights = {known_error(f"{n}", sigma**2): 1 for n in range(18)}
    setup = dict(list(sights.items())[:2])

    assert sqrt(variance(setup)) / FT_NM == pytest.approx(0.00707, abs=5e-6)
    assert sqrt(variance(sights)) / FT_NM == pytest.approx(0.0212, abs=5e-5)


@pytest.mark.parametrize(
    ("found_thousandths", "word"),
    [
        (30, Verdict.OK),
        (325, Verdict.WITHIN),
        (40, Verdict.WITHIN),
        (45, Verdict.BEYOND),
        (53, Verdict.OUT),
    ],
)
def test_four_words_of_a_guard_band(found_thousandths: int, word: Verdict) -> None:
    """ILAC-G8:09/2019, 4.2.3: pass, conditional pass, conditional fail, fail.

    The rule as repeated by a decision-rule page of a test house; the figures are worked by
    hand: at most 0.042 ft, with a band of 0.010 ft, two standard deviations.
    """
    found = Fraction(found_thousandths, 10_000 if found_thousandths > 100 else 1000)
    margin = (Fraction(42, 1000) - found) * FT_NM

    assert judge_margin(margin, Fraction(5 * FT_NM, 1000) ** 2, Fraction(2)) is word


def test_a_figure_on_the_guarded_limit_passes() -> None:
    """JCGM 106:2012, 8.3.2: the acceptance limit itself is in, one part less is not proven."""
    spread, z = Fraction(25), Fraction(2)

    assert guard_band_nm(spread, z) == 10
    assert judge_margin(10, spread, z) is Verdict.OK
    assert judge_margin(Fraction(99, 10), spread, z) is Verdict.WITHIN
    assert judge_margin(-10, spread, z) is Verdict.OUT


def test_probability_of_conforming() -> None:
    """JCGM 106:2012, 7.4: 13.6 with 1.8 between 12.5 and 16.3 conforms with 66 %.

    Inputs as repeated by a page that names the clause; the result printed, from memory, high
    confidence. The nearer limit is 1.1 inside, 0.61 standard deviations: not proven at 90 %.
    """

    def below(x: float) -> float:
        return (1 + erf(x / sqrt(2))) / 2

    chance = below((16.3 - 13.6) / 1.8) - below((12.5 - 13.6) / 1.8)

    assert chance == pytest.approx(0.66, abs=0.005)
    assert judge_margin(Fraction(11, 10), Fraction(18, 10) ** 2, Z_OF[90]) is Verdict.WITHIN


@pytest.mark.parametrize(("percent", "z"), [(90, 1.282), (95, 1.645), (99, 2.326)])
def test_confidence_is_that_of_the_normal_distribution(percent: int, z: float) -> None:
    """One-sided quantiles as any table prints them; worked back by the error function."""
    assert float(Z_OF[percent]) == z
    assert (1 + erf(z / sqrt(2))) / 2 == pytest.approx(percent / 100, abs=1e-4)


@pytest.mark.parametrize(
    ("sight_m", "height_mm"), [(30, 0.06), (91.44, 0.57), (100, 0.68), (1000, 68.3)]
)
def test_curvature_less_refraction(sight_m: float, height_mm: float) -> None:
    """About 0.0675 m in a kilometre, 0.57 mm in 300 ft: from memory of textbooks, high confidence.

    A refraction of 0.13 in place of 0.14 makes it 1.2 % larger.
    """
    found = float(curvature_nm(round(sight_m * 10**9))) / 10**6

    assert found == pytest.approx(height_mm, abs=0.006 if sight_m < 1000 else 0.05)


def test_a_shared_error_drops_out_of_a_difference() -> None:
    """Worked by hand from the law of propagation: two weighings on one balance less each other."""
    own, a, b = known_error("balance", 100), known_error("a", 9), known_error("b", 16)
    heavy, light = Level(7, {own: 1, a: 1}), Level(4, {own: 1, b: 1})

    assert variance(heavy.terms) == 109
    assert variance(difference(heavy, light).terms) == 25
