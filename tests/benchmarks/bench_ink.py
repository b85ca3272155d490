"""What a durable entry costs, beside the least that SQLite itself could take for its bytes.

Run: python -m pytest tests/benchmarks/bench_ink.py --benchmark-only
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from uuid6 import uuid7

from models.book.row import Draft
from models.book.store import Book

ROUNDS = 3000
JOB_ENTRIES = 50_000
Insert = Callable[[str, bytes], None]


def make_draft() -> Draft:
    """Make a probe as a screen would write it."""
    return Draft(
        id=str(uuid7()),
        kind="probe",
        v=1,
        body={
            "pass_id": "G7-03",
            "line_id": "L07",
            "along_nm": 3_048_000_000,
            "along_typed": "10 ft",
            "depth_nm": 228_600_000,
            "depth_typed": "9",
            "width_nm": 25_400_000,
            "width_typed": "1",
        },
        at_ms=1_780_000_000_000,
        offset_min=-300,
        zone="America/Chicago",
        author="Rhea Tolliver",
        job="0198f000-0000-7000-8000-000000000001",
        day="2026-05-28",
    )


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    """Return a new book, open to write."""
    with Book.create(tmp_path / "green.book", stream="5f" * 16) as made:
        yield made


@pytest.fixture
def bare_insert(tmp_path: Path, book: Book) -> Iterator[Insert]:
    """Insert a key and bytes into a table of its own, with the same settings as the book."""
    file = sqlite3.connect(tmp_path / "bare.db", isolation_level=None)
    for setting in ("journal_mode = WAL", "synchronous = FULL", "wal_autocheckpoint = 200"):
        file.execute(f"PRAGMA {setting}")
    file.execute("CREATE TABLE bare (id TEXT PRIMARY KEY, raw BLOB)")

    def insert(id: str, raw: bytes) -> None:
        file.execute("BEGIN IMMEDIATE")
        file.execute("INSERT INTO bare VALUES (?, ?)", (id, raw))
        file.execute("COMMIT")

    yield insert
    file.close()


@pytest.mark.ratio(to="test_bare_insert", at_most=1.5)
def test_ink_one_probe(benchmark: BenchmarkFixture, book: Book, bare_insert: Insert) -> None:
    """One entry, from draft to disk."""
    raw = book.commit_all([make_draft()])[0].raw

    def set_up() -> tuple[tuple[list[Draft]], dict[str, object]]:
        # The two are written in turn in both tests, so that each finds the disk and the
        # processor's caches as the other left them; only one of them is timed.
        bare_insert(str(uuid7()), raw)
        return ([make_draft()],), {}

    benchmark.pedantic(book.commit_all, setup=set_up, rounds=ROUNDS)


def test_bare_insert(benchmark: BenchmarkFixture, book: Book, bare_insert: Insert) -> None:
    """The same bytes, straight into a table."""
    raw = book.commit_all([make_draft()])[0].raw

    def set_up() -> tuple[tuple[str, bytes], dict[str, object]]:
        book.commit_all([make_draft()])
        return (str(uuid7()), raw), {}

    benchmark.pedantic(bare_insert, setup=set_up, rounds=ROUNDS)


@pytest.mark.limit(at_most_ms=1000)
def test_open_and_read_a_large_job(benchmark: BenchmarkFixture, book: Book) -> None:
    """Open a book of 50,000 entries and read every row in order."""
    book.commit_all([make_draft() for _ in range(JOB_ENTRIES)])
    book.close()

    def open_and_read() -> int:
        with Book.open(book.path, stream="5f" * 16) as opened:
            return sum(1 for _ in opened.rows())

    assert benchmark.pedantic(open_and_read, rounds=5) == JOB_ENTRIES
