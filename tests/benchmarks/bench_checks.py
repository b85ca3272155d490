"""What flags cost on a long job: all of it at once, one entry more, and opening the book.

Run: python -m pytest tests/benchmarks/bench_checks.py --benchmark-only
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import count
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from models.book.store import Book
from models.checks.flag_board import FlagBoard
from models.entries.envelope import AnyEntry, read_entry
from models.state.job_state import JobState
from tests.benchmarks.big_job import IN, Clerk, big_state, entry_of, write_big_book

LONG = 50_000
SHORT = 1_000


@cache
def board_of(size: int) -> FlagBoard:
    """Board of a job of so many entries; made once, since only its end is touched."""
    return FlagBoard(big_state(size))


def more_entries(state: JobState, kind: str) -> Iterator[AnyEntry]:
    """Entries of one kind that go on with the newest pass or collector of a job."""
    newest = next(
        entry
        for entry in reversed(list(state.entries.values()))
        if entry.kind == kind
        and not state.is_struck(entry.id)
        and getattr(entry.body, "use", "sand") != "pipe"
    )
    assert newest.body is not None
    clerk = Clerk(written=900_000)
    for turn in count(1):
        fields = newest.body.model_dump(mode="json")
        if kind == "probe":
            fields["depth_nm"] = 9 * IN - turn % 2 * IN
        if kind == "pass":
            fields["pass_id"] = f"{fields['pass_id']}x{turn}"
        yield entry_of(clerk.draft((kind, fields)), 900_000 + turn)


@pytest.mark.limit(at_most_ms=300)
def test_check_the_whole_job(benchmark: BenchmarkFixture) -> None:
    """Every check on every subject of 50,000 entries."""
    board = board_of(LONG)

    def look() -> None:
        board.state.memo.clear()
        board.rebuild()

    benchmark.pedantic(look, rounds=5, warmup_rounds=1)

    assert board.findings()


@pytest.mark.limit(at_most_ms=2)
@pytest.mark.parametrize("size", [SHORT, LONG])
@pytest.mark.parametrize("kind", ["probe", "pass", "sand_placed", "grade_shot", "signature"])
def test_take_one_entry(benchmark: BenchmarkFixture, kind: str, size: int) -> None:
    """One entry more: filed in the state, and what it touches looked at again."""
    board = board_of(size)
    entries = more_entries(board.state, kind)

    def take(entry: AnyEntry) -> None:
        board.state.add(entry)
        board.update(entry)

    benchmark.pedantic(take, setup=lambda: ((next(entries),), {}), rounds=60, warmup_rounds=3)


@pytest.mark.parametrize("kind", ["surface", "material"])
def test_take_a_changed_plan(benchmark: BenchmarkFixture, kind: str) -> None:
    """A plan written anew touches all the work that rests on it: it is as long as that is."""
    board = board_of(LONG)
    entries = more_entries(board.state, kind)

    def take(entry: AnyEntry) -> None:
        board.state.add(entry)
        board.update(entry)

    benchmark.pedantic(take, setup=lambda: ((next(entries),), {}), rounds=5)


@pytest.mark.limit(at_most_ms=1000)
def test_open_a_long_job(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """From a closed book of 50,000 entries to a job state that answers."""
    path = tmp_path / "long.book"
    write_big_book(path, LONG)

    def open_it() -> JobState:
        with Book.open(path, read_only=True) as book:
            return JobState(read_entry(row.raw) for row in book.rows())

    state = benchmark.pedantic(open_it, rounds=3, warmup_rounds=1)

    assert len(state.entries) == LONG
