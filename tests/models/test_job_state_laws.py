"""The law of the job state: it is made of its entries, not of the order in which they came."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from models.entries.envelope import AnyEntry
from models.entries.index import Index
from models.state.indexes import amounts_of, index_keys_of
from models.state.job_state import JobState
from tests.models.checks.any_job import jobs


def contents(state: JobState) -> dict[str, Any]:
    """Return everything that a state says, in a form that can be compared."""
    return {
        "indexes": {k: [one.id for one in v] for k, v in state.indexes.items() if v},
        "totals": {k: v for k, v in state.totals.items() if v},
        "days": {day: [one.id for one in entries] for day, entries in state.days.items()},
        "streams": dict(state.streams),
        "struck": {id: sorted(by) for id, by in state.struck_by.items()},
        "names": {
            name: set(state.every_name(Index(name)))
            for name in state.names
            if state.every_name(Index(name))
        },
        "last": state.last_lc,
    }


@st.composite
def shuffled_jobs(draw: st.DrawFn) -> tuple[list[AnyEntry], list[AnyEntry]]:
    """Entries in the order of writing, and the same in any other order, some of them twice."""
    entries = draw(jobs())
    again = draw(st.lists(st.sampled_from(entries), max_size=4))
    return entries, draw(st.permutations([*entries, *again]))


@settings(max_examples=150, deadline=None)
@given(both=shuffled_jobs())
def test_any_order_of_entries_ends_in_the_same_state(
    both: tuple[list[AnyEntry], list[AnyEntry]],
) -> None:
    """Late entries, strikes before their targets, entries taken twice: the state is the same."""
    written, arrived = both

    assert contents(JobState(arrived)) == contents(JobState(written))


@settings(max_examples=100, deadline=None)
@given(entries=jobs())
def test_indexes_hold_exactly_what_stands(entries: list[AnyEntry]) -> None:
    """Each key holds the current entries filed under it and no struck one."""
    state = JobState(entries)
    struck = {id for entry in entries for id in entry.strikes}
    wanted: dict[tuple[str, str], set[str]] = {}
    for entry in entries:
        for key in index_keys_of(entry) if entry.id not in struck else ():
            wanted.setdefault(key, set()).add(entry.id)

    assert {k: {one.id for one in v} for k, v in state.indexes.items() if v} == wanted


@settings(max_examples=100, deadline=None)
@given(entries=jobs())
def test_sums_are_those_of_what_stands(entries: list[AnyEntry]) -> None:
    """A running total is what adding up the current entries anew would give."""
    state = JobState(entries)
    anew: dict[tuple[str, str], int] = {}
    for entry in entries:
        for name, amount in amounts_of(entry) if not state.is_struck(entry.id) else ():
            anew[name] = anew.get(name, 0) + amount

    assert {k: v for k, v in state.totals.items() if v} == {k: v for k, v in anew.items() if v}


@settings(max_examples=60, deadline=None)
@given(entries=jobs(), cut=st.integers(0, 30))
def test_state_grows_as_it_would_be_rebuilt(entries: list[AnyEntry], cut: int) -> None:
    """Entry by entry, or all at once: the same state."""
    state = JobState(entries[:cut])
    for entry in entries[cut:]:
        state.add(entry)

    assert contents(state) == contents(JobState(entries))
