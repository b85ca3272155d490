"""Ring tests: rates interval by interval, the steady one, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.water.infiltration import RingReading, falling_head_conductivity, ring_result

MM = 1_000_000


def rates(*levels: tuple[int, int]) -> list[Fraction]:
    """Return the rates in mm/h of readings given as seconds and millimetres."""
    result = ring_result([RingReading(s, mm * MM) for s, mm in levels])
    return [interval.rate_nm_per_h / MM for interval in result.intervals]


def test_rate_is_fall_over_time() -> None:
    """By hand: 10 mm in 10 minutes is 60 mm/h, 5 mm in 10 minutes 30 mm/h."""
    assert rates((0, 100), (600, 90), (1200, 85)) == [60, 30]


def test_volume_over_area_and_time_gives_the_same() -> None:
    """ASTM D3385 (title and definition seen): volume over area and time, area cancels.

    A ring of 300 mm takes 706.86 ml in ten minutes: 10 mm over 70 686 mm2.
    """
    area_mm2 = 3.14159265 * 300**2 / 4
    by_volume = 706_858.35 / area_mm2 / (600 / 3600)

    assert float(rates((0, 100), (600, 90))[0]) == pytest.approx(by_volume, rel=1e-6)


def test_early_fast_intervals_do_not_count() -> None:
    """A ground that fills up takes less and less; the last that agree give the rate."""
    readings = [RingReading(s, mm * MM) for s, mm in ((0, 99), (600, 60), (1200, 50), (1800, 40))]
    result = ring_result(readings)

    assert (result.steady_from, result.is_steady) == (1, True)
    assert result.rate_nm_per_h == 60 * MM


def test_one_interval_alone_is_not_called_steady() -> None:
    """Two readings give a rate, and nobody can say that it would have stayed so."""
    result = ring_result([RingReading(0, 100 * MM), RingReading(600, 90 * MM)])

    assert result.rate_nm_per_h == 60 * MM
    assert not result.is_steady


def test_filling_up_is_no_fall() -> None:
    """Water poured in between two readings counts from the height it was filled up to."""
    result = ring_result(
        [RingReading(0, 100 * MM), RingReading(600, 80 * MM, 100 * MM), RingReading(1200, 80 * MM)]
    )

    assert [interval.drop_nm for interval in result.intervals] == [20 * MM, 20 * MM]


def test_a_ground_that_takes_nothing_has_rate_zero() -> None:
    """No fall is a reading like any other."""
    result = ring_result([RingReading(s, 50 * MM) for s in (0, 600, 1200)])

    assert result.rate_nm_per_h == 0
    assert result.is_steady


@given(
    k=st.floats(1, 5000), driven=st.integers(50, 300), first=st.integers(50, 200),
    minutes=st.integers(1, 60),
)  # fmt: skip
def test_darcy_column_gives_its_conductivity_back(
    k: float, driven: int, first: int, minutes: int
) -> None:
    """The exact fall of a column, worked out forward, leads back to what it was made with."""
    last = (first + driven) * exp(-k * minutes / 60 / driven) - driven
    if last < 1:
        return  # it ran dry

    found = falling_head_conductivity(first * MM, round(last * MM), driven * MM, minutes * 60)

    assert float(found) / MM == pytest.approx(k, rel=1e-4)


@pytest.mark.parametrize(
    ("readings", "words"),
    [
        ([RingReading(0, 5)], "fewer than two readings"),
        ([RingReading(0, 5), RingReading(0, 4)], "does not come after"),
        ([RingReading(9, 5), RingReading(3, 4)], "does not come after"),
        ([RingReading(0, 5), RingReading(9, 6)], "stands higher"),
        ([RingReading(0, 5), RingReading(9, -1)], "below ground"),
    ],
)
def test_what_cannot_be_a_test_is_refused(readings: list[RingReading], words: str) -> None:
    """A sentence says what is wrong with the readings."""
    with pytest.raises(CalculationInputError, match=words):
        ring_result(readings)


@pytest.mark.parametrize("figures", [(50, 100, 9, 9), (100, 100, 9, 9), (9, 5, 0, 9), (9, 5, 9, 0)])
def test_a_column_without_a_fall_is_refused(figures: tuple[int, int, int, int]) -> None:
    """A rise, no soil or no time gives no conductivity."""
    with pytest.raises(CalculationInputError, match="a ring test"):
        falling_head_conductivity(*figures)
