"""Production: the range of the finish, the calendar, the sand to call in."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from math import comb

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.errors import CalculationInputError
from models.science.schedule.production import (
    LONGEST_DAYS,
    Output,
    finish_range,
    rate_nm_per_h,
    working_date,
)
from models.science.schedule.sand_call_in import sand_call_in

DAILY = st.lists(st.integers(1, 500), min_size=1, max_size=10)


@given(st.integers(0, 3000), DAILY, st.integers(0, 3), st.integers(0, 2**32))
def test_range_is_ordered_and_reproducible(
    remaining: int, daily: list[int], lost: int, seed: int
) -> None:
    """Early, middle and late stand in order, no faster than the best day; same seed, same range."""
    found = finish_range(remaining, daily, lost, seed, trials=30)

    assert found == finish_range(remaining, daily, lost, seed, trials=30)
    assert -(-remaining // max(daily)) <= found.early_days <= found.middle_days <= found.late_days
    assert found.is_thin == (len(daily) + lost < 5)


def test_another_seed_is_another_chance() -> None:
    """Seeds differ in what they draw, on a record that leaves room for it."""
    found = {finish_range(10_000, [50, 90, 400], 2, seed, 25) for seed in range(20)}

    assert len(found) > 1


def chance_of_done_by(days: int, needed: int) -> float:
    """Chance that at least so many of these days are worked, when half of the days are."""
    return sum(comb(days, worked) for worked in range(needed, days + 1)) / 2**days


def test_range_is_that_of_the_binomial() -> None:
    """One day in two lost: the quantiles are those of waiting for the tenth good day.

    Worked from the binomial distribution, apart from any drawing of days.
    """
    found = finish_range(1000, [100] * 3, 3, seed=7, trials=4000)

    quantiles = (found.early_days, found.middle_days, found.late_days)
    for days, share in zip(quantiles, (0.1, 0.5, 0.9), strict=True):
        assert chance_of_done_by(days - 1, 10) < share + 0.03
        assert chance_of_done_by(days, 10) > share - 0.03


def test_lost_days_put_the_finish_off() -> None:
    """The same record with lost days among it takes longer."""
    without = finish_range(5000, [100, 120, 90], 0, seed=3)
    with_lost = finish_range(5000, [100, 120, 90], 3, seed=3)

    assert with_lost.middle_days > 1.7 * without.middle_days


def test_a_lost_day_yields_nothing() -> None:
    """With days of 1 and as many lost, 100 takes about 200 days; one trial is enough to see it."""
    found = finish_range(100, [1], 1, seed=2, trials=1)

    assert 140 < found.early_days == found.late_days < 260


def test_no_trial_runs_for_ever() -> None:
    """A rest that would take a century stops at the limit."""
    assert finish_range(10**9, [1], 5, seed=1, trials=2).late_days == LONGEST_DAYS


@given(st.lists(st.tuples(st.integers(0, 10**12), st.integers(1, 600)), min_size=1, max_size=6))
def test_rate_lies_between_the_days_own(days: list[tuple[int, int]]) -> None:
    """The rate of all days together is neither below the slowest nor above the fastest."""
    rates = [Fraction(length * 60, minutes) for length, minutes in days]

    assert min(rates) <= rate_nm_per_h([Output(*day) for day in days]) <= max(rates)


@given(
    st.dates(date(2020, 1, 1), date(2060, 1, 1)),
    st.integers(0, 200),
    st.frozensets(st.integers(0, 6), max_size=6),
)
def test_working_days_are_counted(today: date, days: int, rest: frozenset[int]) -> None:
    """Between today and the day found lie as many working days as were asked for."""
    found = working_date(today, days, rest)
    between = [today + timedelta(days=n) for n in range(1, (found - today).days + 1)]

    assert sum(day.weekday() not in rest for day in between) == days
    assert not between or found.weekday() not in rest


@given(st.integers(-50, 1000), st.integers(1, 50), st.integers(0, 5), st.integers(0, 50))
def test_a_call_on_time_keeps_the_reserve(on_hand: int, use: int, lead: int, reserve: int) -> None:
    """Until the truck comes the stock holds the reserve; a call a day later would not do."""
    call = sand_call_in(on_hand, use, lead, reserve)
    arrives = call.call_in_days + lead

    assert call.is_late == (on_hand - lead * use < reserve and lead > 0)
    if not call.is_late:
        assert on_hand - arrives * use >= reserve or arrives == 0
        assert on_hand - (arrives + 1) * use < reserve


@pytest.mark.parametrize(
    "call",
    [
        lambda: rate_nm_per_h([Output(1, 0)]),
        lambda: finish_range(1, [], 1, 1),
        lambda: finish_range(1, [0, 0], 1, 1),
        lambda: finish_range(1, [1], -1, 1),
        lambda: finish_range(-1, [1], 0, 1),
        lambda: finish_range(1, [1], 0, 1, trials=0),
        lambda: working_date(date(2026, 1, 1), 1, frozenset(range(7))),
        lambda: working_date(date(2026, 1, 1), -1, frozenset()),
        lambda: sand_call_in(1, 0, 1),
        lambda: sand_call_in(1, 1, -1),
        lambda: sand_call_in(1, 1, 1, -1),
    ],
)
def test_what_has_no_answer_is_refused(call: object) -> None:
    """Each refusal says what would be accepted."""
    assert callable(call)
    with pytest.raises(CalculationInputError) as caught:
        call()

    assert caught.value.context["accepted"]
