"""Laws of the flag board over made-up jobs of every kind of entry."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from models.checks.finding_text import sentence
from models.checks.flag_board import FlagBoard
from models.entries.envelope import AnyEntry
from models.entries.kinds import KINDS
from models.state.job_state import JobState
from models.units.job_units import Figures
from tests.models.checks.any_job import FIELDS, jobs

NOW_MS = 1_777_900_000_000
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]

shuffled = jobs().flatmap(lambda entries: st.permutations(entries))


def findings_of(board: FlagBoard) -> list[Any]:
    """Findings of a board in one order, with all they state."""
    return sorted(
        (found.key, sorted(found.facts.items()), found.day, found.entries)
        for found in board.findings()
    )


def state_with(entries: Sequence[AnyEntry] = ()) -> JobState:
    """Job state with entries and a clock."""
    state = JobState(entries)
    state.now_ms = NOW_MS
    return state


def test_made_up_jobs_touch_every_kind() -> None:
    """The made-up jobs leave out no kind of entry."""
    assert set(FIELDS) == set(KINDS)


@settings(max_examples=300, deadline=None, suppress_health_check=SLOW)
@given(entries=shuffled)
def test_board_kept_up_entry_by_entry_is_the_board_made_at_once(entries: list[AnyEntry]) -> None:
    """Taking entries in any order never raises, and ends in what a look at all would find."""
    state = state_with()
    board = FlagBoard(state)
    for entry in entries:
        state.add(entry)
        board.update(entry)
    whole = FlagBoard(state_with(sorted(entries, key=lambda one: (one.lc, one.id))))

    assert findings_of(board) == findings_of(whole)


@settings(max_examples=100, deadline=None, suppress_health_check=SLOW)
@given(entries=shuffled, size=st.integers(2, 8))
def test_board_takes_several_entries_at_once(entries: list[AnyEntry], size: int) -> None:
    """Entries that were all in the state before the first was taken end in the same board."""
    state = state_with()
    board = FlagBoard(state)
    for start in range(0, len(entries), size):
        together = entries[start : start + size]
        for entry in together:
            state.add(entry)
        for entry in together:
            board.update(entry)

    assert findings_of(board) == findings_of(FlagBoard(state_with(entries)))


@settings(max_examples=100, deadline=None, suppress_health_check=SLOW)
@given(entries=shuffled)
def test_take_tells_what_came_and_what_went(entries: list[AnyEntry]) -> None:
    """Findings told as come or gone, added up over all entries, are the board."""
    state = state_with()
    board = FlagBoard(state)
    standing: dict[str, Any] = {}
    for entry in entries:
        state.add(entry)
        come, gone = board.update(entry)
        for found in gone:
            del standing[found.key]
        standing.update({found.key: found for found in come})

    assert standing == {found.key: found for found in board.findings()}


@settings(max_examples=100, deadline=None, suppress_health_check=SLOW)
@given(entries=jobs())
def test_every_finding_can_be_said_and_answered(entries: list[AnyEntry]) -> None:
    """Each finding is a sentence; keys are unique, since a flag is answered by its key."""
    board = FlagBoard(state_with(entries))
    keys = [found.key for found in board.findings()]

    assert len(set(keys)) == len(keys)
    assert all("{" not in sentence(found, Figures()) for found in board.findings())
