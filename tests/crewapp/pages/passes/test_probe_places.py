"""Where to probe next: near both ends, never further apart than allowed, whole steps."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from crewapp.pages.passes.probe_places import (
    ProbePlace,
    ProbeRule,
    ProbeStretch,
    next_along,
    next_place,
    probes_wanted,
)

FOOT = 304_800_000
RULE = ProbeRule(15 * FOOT, 3 * FOOT)


def test_first_place_is_near_the_start() -> None:
    """Nothing probed yet: as far in as the rule allows, so that it counts for the end."""
    assert next_along(40 * FOOT, [], RULE, FOOT) == 3 * FOOT


def test_gap_left_open_comes_first() -> None:
    """A gap wider than allowed is closed before the crew walks on."""
    assert next_along(40 * FOOT, [3 * FOOT, 37 * FOOT], RULE, FOOT) == 18 * FOOT


def test_probe_far_from_the_start_leaves_the_start_open() -> None:
    """A line first probed in its middle still wants its start."""
    assert next_along(40 * FOOT, [20 * FOOT], RULE, FOOT) == 3 * FOOT


def test_places_on_the_limits_are_enough() -> None:
    """Exactly 3 ft from each end and exactly 15 ft apart is within the rule."""
    taken = [3 * FOOT, 18 * FOOT, 33 * FOOT, 37 * FOOT]
    assert next_along(40 * FOOT, taken, RULE, FOOT) is None


def test_legs_are_probed_where_the_crew_stands() -> None:
    """The leg least far along comes next; of two alike the first."""
    stretches = dict.fromkeys(("S01", "S04"), ProbeStretch(0, 40 * FOOT, RULE))
    taken = {"S01": [3 * FOOT], "S04": []}
    assert next_place(stretches, taken, FOOT) == ProbePlace("S04", 3 * FOOT)


def test_a_piece_is_probed_from_where_it_begins() -> None:
    """A drive taken up again at 50 ft is probed near 50 ft and near its end, not before."""
    stretch = ProbeStretch(50 * FOOT, 20 * FOOT, RULE)
    taken = {"S01": [3 * FOOT, 17 * FOOT]}

    assert next_place({"S01": stretch}, taken, FOOT) == ProbePlace("S01", 53 * FOOT)
    assert probes_wanted(stretch, [3 * FOOT], FOOT) == 2
    assert probes_wanted(stretch, [53 * FOOT, 67 * FOOT], FOOT) == 0


def test_pattern_that_asks_for_nothing_wants_one_probe() -> None:
    """A rule of zeros is content with one probe in the middle."""
    rule = ProbeRule(0, 0)
    assert next_along(40 * FOOT, [], rule, FOOT) == 20 * FOOT
    assert next_along(40 * FOOT, [20 * FOOT], rule, FOOT) is None


@given(
    st.integers(1, 600 * FOOT),
    st.integers(0, 60 * FOOT),
    st.integers(0, 30 * FOOT),
    st.lists(st.integers(0, 600 * FOOT), max_size=4),
)
def test_walk_ends_and_keeps_the_rule(length: int, every: int, end: int, before: list[int]) -> None:
    """Followed to its end, the proposal meets the rule, whatever was probed before."""
    rule = ProbeRule(every, end)
    taken = [along for along in before if along <= length]
    for _ in range(probes_wanted(ProbeStretch(0, length, rule), taken, FOOT)):
        along = next_along(length, taken, rule, FOOT)
        assert along is not None
        assert 0 <= along <= length
        taken.append(along)
    places = sorted(taken)
    if len(places) >= 499:
        return
    gaps = [b - a for a, b in zip(places, places[1:], strict=False)]
    assert not every or not gaps or max(gaps) <= every
    assert not end or (places[0] <= end and length - places[-1] <= end)
