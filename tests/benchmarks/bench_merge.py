"""What it costs to take entries of twenty tablets in, beside SQLite's own executemany.

Run: python -m pytest tests/benchmarks/bench_merge.py --benchmark-only -s
CREWAPP_MERGE_ENTRIES says how many entries; a million in full.
"""

from __future__ import annotations

import hashlib
import os
import random
import sqlite3
from collections.abc import Iterator, Sequence
from pathlib import Path
from time import perf_counter, process_time

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from models.book.reading import COLUMNS
from models.book.row import GENESIS, Draft, Row, make_row, to_columns
from models.book.steps.step_1_entries import STATEMENTS
from models.book.store import Book
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.exchange.merging import BATCH_ROWS, MergeRules, merge
from sync.exchange.progress import ProgressReporter
from sync.segments.writer import seal_rows, split_rows
from sync.trust.keys import DEMO, Signer
from sync.trust.members import Job
from tests.benchmarks.bench_ink import make_draft

ENTRIES = int(os.environ.get("CREWAPP_MERGE_ENTRIES", "100000"))
TABLETS = 20
_INSERT = f"INSERT INTO entry ({COLUMNS}) VALUES ({', '.join('?' * 16)})"
JOB = Job(DEMO.stream, "green-7-00112233445566aa")  # a job that anybody may write to


def rows_of(signer: Signer, count: int, dice: random.Random) -> Iterator[Row]:
    """Probes of one tablet, a second or so apart, with ids that grow with the time."""
    previous, at_ms = GENESIS, 1_780_000_000_000 + dice.randrange(3_600_000)
    like: Draft = make_draft()
    for seq in range(1, count + 1):
        at_ms += dice.randrange(200, 2000)
        id = f"{at_ms:012x}"
        id = f"{id[:8]}-{id[8:]}-7{dice.randrange(4096):03x}-8{dice.randrange(4096):03x}"
        body = {**like.body, "depth_nm": 25_400_000 * 9 + dice.randrange(-9, 9) * 3_175_000}
        draft = Draft(
            id=f"{id}-{dice.randrange(2**48):012x}",
            kind=like.kind,
            v=1,
            body=body,
            at_ms=at_ms,
            offset_min=like.offset_min,
            zone=like.zone,
            author=like.author,
            job=like.job,
            day=like.day,
        )
        row = make_row(draft, signer.stream, seq, seq, previous)
        previous = row.hash
        yield row


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> JobFolder:
    """Segments of twenty tablets, kept and not yet taken in."""
    folder = tmp_path_factory.mktemp("merge")
    kept = JobFolder(folder / "job.sync", folder / "photos")
    size = 0
    for number in range(TABLETS):
        signer = Signer(hashlib.sha256(str(number).encode()).digest())
        dice = random.Random(number)
        previous = GENESIS
        for portion in split_rows(rows_of(signer, ENTRIES // TABLETS, dice)):
            segment = seal_rows(portion, previous, JOB.key, signer)
            previous = portion[-1].hash
            kept.save_segment(segment.name, segment.data)
            size += len(segment.data)
    print(f"\n{ENTRIES} entries in {len(kept.names())} segments: {size / ENTRIES:.1f} bytes each")
    return kept


def most_memory_mb() -> float:
    """Return the most memory that this process had since it was last asked, where that is told."""
    try:
        status = Path("/proc/self/status").read_text(encoding="utf-8")
        Path("/proc/self/clear_refs").write_text("5", encoding="utf-8")
    except OSError:
        return 0.0
    line = next(line for line in status.splitlines() if line.startswith("VmHWM"))
    return int(line.split()[1]) / 1024


class Bare:
    """The same table and indexes without its guards, filled by executemany alone.

    It is given the rows while they are merged, a transaction after the other in turn, so that
    both find the machine as busy as it is.
    """

    spent_s = 0.0
    spent_cpu_s = 0.0

    def __init__(self, path: Path) -> None:
        self.file = sqlite3.connect(path, isolation_level=None)
        for setting in ("journal_mode = WAL", "synchronous = FULL", "wal_autocheckpoint = 200"):
            self.file.execute(f"PRAGMA {setting}")
        for statement in STATEMENTS:
            if "TRIGGER" not in statement:
                self.file.execute(statement)
        self._waiting: list[Row] = []

    def take(self, rows: Sequence[Row]) -> None:
        """Put rows in, as many to a transaction as the merge does."""
        self._waiting += rows
        if len(self._waiting) >= BATCH_ROWS:
            self.put()

    def put(self) -> None:
        """Put in what waits."""
        columns = [to_columns(row) for row in self._waiting]
        self._waiting = []
        start, start_cpu = perf_counter(), process_time()
        self.file.execute("BEGIN IMMEDIATE")
        self.file.executemany(_INSERT, columns)
        self.file.execute("COMMIT")
        Bare.spent_s += perf_counter() - start
        Bare.spent_cpu_s += process_time() - start_cpu

    def count(self) -> int:
        """How many rows it holds."""
        return int(self.file.execute("SELECT count(*) FROM entry").fetchone()[0])


def set_time(benchmark: BenchmarkFixture, seconds: float) -> None:
    """Let a benchmark report a time that was measured inside of it."""
    assert benchmark.stats is not None
    benchmark.stats.stats.data[:] = [seconds]


@pytest.mark.ratio(to="test_bare_executemany", at_most=2.0)
def test_merge(benchmark: BenchmarkFixture, place: JobFolder, tmp_path: Path) -> None:
    """Every check of every entry, and into the book."""
    bare = Bare(tmp_path / "bare.db")
    with Book.create(tmp_path / "green.book", stream="5f" * 16, reserve_bytes=10) as book:
        most_memory_mb()
        rules = MergeRules(on_rows=bare.take)

        def take() -> int:
            return merge(book, place, ExchangeLog(), JOB, rules, ProgressReporter()).rows

        start, start_cpu = perf_counter(), process_time()
        assert benchmark.pedantic(take, rounds=1) == ENTRIES
        set_time(benchmark, perf_counter() - start - Bare.spent_s)
        cpu_s = process_time() - start_cpu - Bare.spent_cpu_s
        print(f"\nmerge: {most_memory_mb():.0f} MB at most")
        print(f"processor alone: {cpu_s:.1f} s / {Bare.spent_cpu_s:.1f} s")
        assert book.count() == bare.count() + len(bare._waiting) == ENTRIES
    bare.file.close()


def test_bare_executemany(benchmark: BenchmarkFixture) -> None:
    """The same rows, ready made, into the same table and indexes."""
    benchmark.pedantic(lambda: None, rounds=1)
    set_time(benchmark, Bare.spent_s)
