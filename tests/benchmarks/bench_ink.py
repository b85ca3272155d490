"""What a durable entry costs, beside the least that SQLite itself could take for its bytes.

Run: python -m pytest tests/benchmarks/bench_ink.py -s
"""

from __future__ import annotations

import sqlite3
import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from uuid6 import uuid7

from models.book.row import Draft
from models.book.store import Book

ROUNDS = 3000
JOB_ENTRIES = 50_000


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
def bare_insert(tmp_path: Path, book: Book) -> Iterator[Callable[[str, bytes], None]]:
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


def test_ink_one_probe(benchmark: BenchmarkFixture, book: Book) -> None:
    """One entry, from draft to disk."""
    benchmark.pedantic(lambda: book.ink_all([make_draft()]), rounds=ROUNDS)


def test_bare_insert(
    benchmark: BenchmarkFixture, book: Book, bare_insert: Callable[[str, bytes], None]
) -> None:
    """The same bytes, straight into a table."""
    raw = book.ink_all([make_draft()])[0].raw
    benchmark.pedantic(lambda: bare_insert(str(uuid7()), raw), rounds=ROUNDS)


def test_ratio_of_ink_to_bare_insert(
    book: Book, bare_insert: Callable[[str, bytes], None], capsys: pytest.CaptureFixture[str]
) -> None:
    """Both in turn, so that a busy machine slows both alike; the medians are compared."""
    raw = book.ink_all([make_draft()])[0].raw
    ours: list[int] = []
    bare: list[int] = []
    for _ in range(ROUNDS):
        draft = make_draft()
        start = time.perf_counter_ns()
        book.ink_all([draft])
        middle = time.perf_counter_ns()
        bare_insert(draft.id, raw)
        ours.append(middle - start)
        bare.append(time.perf_counter_ns() - middle)
    mine_us, bare_us = statistics.median(ours) / 1000, statistics.median(bare) / 1000
    with capsys.disabled():
        print(f"\nink {mine_us:.0f} us, bare insert {bare_us:.0f} us: {mine_us / bare_us:.2f} x")


def test_open_and_read_a_large_job(benchmark: BenchmarkFixture, book: Book) -> None:
    """Open a book of 50,000 entries and read every row in order."""
    book.ink_all([make_draft() for _ in range(JOB_ENTRIES)])
    book.close()

    def open_and_read() -> int:
        with Book.open(book.path, stream="5f" * 16) as opened:
            return sum(1 for _ in opened.rows())

    assert benchmark.pedantic(open_and_read, rounds=5) == JOB_ENTRIES
