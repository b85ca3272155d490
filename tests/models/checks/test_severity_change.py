"""When a fault has grown so much that it is told again."""

from __future__ import annotations

from typing import Any

import pytest

from models.checks.finding import Finding
from models.checks.severity_change import excess_of, has_doubled


def found(**facts: Any) -> Finding:
    """A finding with facts alone."""
    return Finding("depth_shallow", "x", facts=facts)


@pytest.mark.parametrize(
    ("then", "now", "is_so"),
    [
        ({"depth_nm": 95, "least_nm": 100}, {"depth_nm": 90, "least_nm": 100}, True),
        ({"depth_nm": 95, "least_nm": 100}, {"depth_nm": 91, "least_nm": 100}, False),
        ({"depth_nm": 95, "least_nm": 100}, {"depth_nm": 99, "least_nm": 100}, False),
        ({"depth_nm": 105, "most_nm": 100}, {"depth_nm": 110, "most_nm": 100}, True),
        (
            {"width_nm": 95, "least_nm": 100, "most_nm": 110},
            {"width_nm": 125, "least_nm": 100, "most_nm": 110},
            True,
        ),
        ({"count": 3}, {"count": 5}, False),
        ({"count": 3}, {"count": 6}, True),
        ({"ticket": "A"}, {"ticket": "B"}, False),
    ],
)
def test_twice_as_far_out_is_worse(then: dict[str, Any], now: dict[str, Any], is_so: bool) -> None:
    """Below a least or above a most; a fault on the other side is new."""
    assert has_doubled(found(**now), found(**then)) is is_so


def test_reading_within_its_other_limit_is_not_out_by_it() -> None:
    """Too narrow is not also too wide by less than nothing."""
    assert excess_of(found(width_nm=95, least_nm=100, most_nm=110)) == {"width_nm/least_nm": 5}
