"""Percent within limits against the table of the Federal Highway Administration."""

from __future__ import annotations

from math import asin, pi, sqrt

import pytest

from models.science.quality.acceptance import lot_figures, percent_within

# FHWA TA 5080.12 Table 1B, fhwa.dot.gov/legsregs/directives/techadvs/508012tb.htm (seen).
TABLE_1B = [
    (73, 3, 0.76),
    (73, 4, 0.69),
    (73, 5, 0.66),
    (73, 6, 0.65),
    (73, 10, 0.63),
    (65, 3, 0.52),
    (65, 4, 0.45),
    (65, 5, 0.43),
    (60, 3, 0.36),
    (60, 4, 0.30),
    (60, 5, 0.28),
]


@pytest.mark.parametrize(("percent", "n", "quality_index"), TABLE_1B)
def test_table_1b(percent: int, n: int, quality_index: float) -> None:
    """The table's quality index, to its two places, gives its percentage.

    The table prints the least index that reaches the percentage, so half a unit of its
    last place is worth up to 0.2 %.
    """
    assert percent_within(quality_index, n) == pytest.approx(percent, abs=0.25)


@pytest.mark.parametrize("quality_index", [-1.1, -0.3, 0.0, 0.2, 0.69, 1.0])
def test_closed_forms_for_three_and_four(quality_index: float) -> None:
    """Three readings: 50 + (100/pi) asin(Q root 3 / 2); four: 50 + 100 Q / 3 (from memory)."""
    three = 50 + 100 / pi * asin(quality_index * sqrt(3) / 2)

    assert percent_within(quality_index, 3) == pytest.approx(three, abs=1e-9)
    assert percent_within(quality_index, 4) == pytest.approx(50 + 100 * quality_index / 3, abs=1e-9)


@pytest.mark.parametrize(
    ("quality_index", "n", "percent"),
    [(0.76, 3, 72.87), (0.69, 4, 73.00), (0.66, 5, 72.94), (0.65, 6, 73.08), (0.63, 10, 73.06)],
)
def test_values_worked_beforehand(quality_index: float, n: int, percent: float) -> None:
    """The closed form worked for the indices of the table, to two places (derived)."""
    assert percent_within(quality_index, n) == pytest.approx(percent, abs=0.005)


def test_two_sided_adds_both_sides_and_takes_off_a_hundred() -> None:
    """PWL = Pu + Pl - 100, Florida DOT 334-8.2.2.2: a mean midway counts both tails."""
    lot = lot_figures([8, 9, 9, 10], 8, 10)
    one_side = lot_figures([8, 9, 9, 10], 8, None)

    assert lot.percent_within is not None
    assert one_side.percent_within is not None
    assert lot.percent_within == pytest.approx(2 * one_side.percent_within - 100)


@pytest.mark.parametrize("readings", [[9], [8, 9]])
def test_one_or_two_readings_have_no_percentage(readings: list[int]) -> None:
    """Florida DOT 334 Table 334-6: a lot of one or two is judged by single readings."""
    assert lot_figures(readings, 8, 10).percent_within is None
