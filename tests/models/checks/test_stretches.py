"""Stretches of a collector, joined and taken from one another."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from models.checks.stretches import (
    Stretch,
    StretchUnion,
    bad_runs,
    intersection,
    is_within,
    merge_stretches,
    merge_with_items,
    subtract_stretches,
)

stretches = st.tuples(st.integers(0, 20), st.integers(0, 20)).map(
    lambda ends: (min(ends), max(ends))
)
many = st.lists(stretches, max_size=6)


def halves(taken: list[Stretch]) -> set[int]:
    """Midpoints of the unit steps that stretches cover, doubled to stay whole."""
    return {2 * step + 1 for low, high in taken for step in range(low, high)}


@given(taken=many)
def test_joined_covers_the_same_and_keeps_apart(taken: list[Stretch]) -> None:
    """Joining loses nothing, adds nothing, and leaves no two that touch."""
    found = merge_stretches(taken)

    assert halves(found) == halves(taken)
    assert all(one[1] < other[0] for one, other in zip(found, found[1:], strict=False))


@given(stretch=stretches, taken=many)
def test_without_leaves_what_was_not_taken(stretch: Stretch, taken: list[Stretch]) -> None:
    """What is left is the stretch less all that was taken."""
    assert halves(subtract_stretches(stretch, taken)) == halves([stretch]) - halves(taken)


@given(one=stretches, other=stretches)
def test_shared_is_what_both_cover(one: Stretch, other: Stretch) -> None:
    """Two stretches that only touch share nothing."""
    both = intersection(one, other)

    assert halves([both] if both else []) == halves([one]) & halves([other])


@given(taken=many, more=many, stretch=stretches)
def test_union_grows_and_answers(
    taken: list[Stretch], more: list[Stretch], stretch: Stretch
) -> None:
    """Added one by one in any order, a union covers, meets and misses what it should."""
    union = StretchUnion(taken)
    for one in more:
        union.add(one)

    covered = halves([*taken, *more])
    assert halves(union.parts()) == covered
    assert union.overlaps(stretch) == bool(halves([stretch]) & covered)
    assert halves(union.missing_from(stretch)) == halves([stretch]) - covered


@given(taken=many)
def test_gathered_joins_and_keeps_what_belongs(taken: list[Stretch]) -> None:
    """Each piece's number comes back once, in order, under the stretch that holds it."""
    found = list(merge_with_items([(stretch, place) for place, stretch in enumerate(taken)]))

    assert [joint for joint, _ in found] == merge_stretches(taken)
    assert sorted(place for _, places in found for place in places) == list(range(len(taken)))
    for (low, high), places in found:
        assert places == sorted(places)
        assert all(low <= taken[place][0] and taken[place][1] <= high for place in places)


def test_within_counts_ends_and_joins() -> None:
    """Stretches that meet cover what lies across their meeting; a gap does not."""
    assert is_within((0, 10), [(0, 4), (4, 10)])
    assert not is_within((0, 10), [(0, 4), (5, 10)])
    assert not is_within((0, 10), [(0, 9)])


def test_runs_are_neighbours_alone() -> None:
    """A good one between two bad ones parts them."""
    assert list(bad_runs([1, 3, 2, 5], lambda number: number % 2 == 1)) == [[1, 3], [5]]
