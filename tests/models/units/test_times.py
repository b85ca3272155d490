"""Instants within the years an entry may carry, and what lies outside them."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.units.times import (
    FIRST_DAY,
    LAST_DAY,
    LAST_MS,
    NO_TIME,
    is_day,
    is_time,
    local_time,
    nearest_time,
    utc_moment,
)

ANY = st.integers(-(2**63), 2**63 - 1)
END_OF_2199_MS = int(datetime(2200, 1, 1, tzinfo=UTC).timestamp()) * 1000 - 1
END_OF_ALL_MS = 253_402_300_799_999
"""The last instant of 9999, past which the calendar of the standard library ends."""


def test_bounds_are_those_of_the_format() -> None:
    """The last instant is the end of 2199, to the millisecond."""
    assert LAST_MS == END_OF_2199_MS == 7_258_118_399_999
    assert (is_day(FIRST_DAY), is_day(LAST_DAY)) == (True, True)
    assert not any(map(is_day, ("1969-12-31", "2200-01-01", "2026-02-30", "20260511", "", "x")))


@pytest.mark.parametrize(
    ("at_ms", "offset_min"),
    [
        (-1, 0),
        (0, -1),
        (LAST_MS + 1, 0),
        (LAST_MS, 1),
        (0, 1_081),
        (END_OF_ALL_MS, 60),
        (2**63 - 1, 2**63 - 1),
        (-(2**63), -(2**63)),
    ],
)
def test_time_outside_is_no_time(at_ms: int, offset_min: int) -> None:
    """Nothing overflows: it is shown as having none."""
    assert not is_time(at_ms, offset_min)
    assert local_time(at_ms, offset_min) == NO_TIME


@given(at_ms=st.integers(0, LAST_MS), offset_min=st.integers(-1_080, 1_080))
def test_time_inside_is_that_of_the_calendar(at_ms: int, offset_min: int) -> None:
    """It agrees with the standard library wherever the local time lies within the bounds too."""
    local = datetime.fromtimestamp(0, UTC) + timedelta(milliseconds=at_ms, minutes=offset_min)
    shown = local.strftime("%Y-%m-%d %H:%M") if 1970 <= local.year < 2200 else NO_TIME

    assert local_time(at_ms, offset_min) == shown


@given(at_ms=ANY, offset_min=ANY)
def test_nearest_time_lies_inside(at_ms: int, offset_min: int) -> None:
    """Whatever a clock says has a nearest instant; one that lies inside is its own."""
    near = nearest_time(at_ms, offset_min)

    assert is_time(*near)
    assert not is_time(at_ms, offset_min) or near == (at_ms, offset_min)
    assert 1970 <= utc_moment(at_ms).year < 2200
