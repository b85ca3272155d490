"""What the office's merge costs beside the bare rows, and how fast it answers over many entries.

Run: python -m pytest tests/benchmarks/bench_office.py --benchmark-only -s
``CREWAPP_OFFICE_ROWS=1000000`` makes it a season of 20 tablets; without it a small one is taken.
Peak memory of each merge, measured in a program of its own, is printed beside the ratios.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from sync.office.database import Office
from sync.office.figure_tables import drop_index, refresh_index
from sync.office.report import read_report
from tests.benchmarks import season
from tests.house.tree import ROOT
from tests.sync.office.postgres import Postgres, postgres

ROWS = int(os.environ.get("CREWAPP_OFFICE_ROWS", "20000"))
KINDS = ("sqlite", "postgresql")


@pytest.fixture(scope="module")
def sent(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of segments of 20 tablets that wrote to one job, ready to be merged."""
    folder = tmp_path_factory.mktemp("season")
    season.write_season(folder, ROWS)
    return folder


@pytest.fixture(scope="module")
def server() -> Iterator[Postgres]:
    """One PostgreSQL for the run."""
    with postgres() as running:
        yield running


@pytest.fixture
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Callable[[str], str]:
    """Give an empty database of a kind."""

    def give(kind: str) -> str:
        if kind == "sqlite":
            return str(tmp_path / "office.db")
        server: Postgres = request.getfixturevalue("server")
        return server.new_database()

    return give


def in_a_program(work: str, where: str, sent: Path) -> None:
    """Run one piece of work in a program of its own, which prints what memory it took."""
    words = [sys.executable, "-m", "tests.benchmarks.season", work, where, str(sent)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    print(f"\n{work} {where.partition(':')[0]}: {done.stdout.strip()}")


def once(benchmark: BenchmarkFixture, work: str, where: str, sent: Path) -> None:
    """Measure one run: it fills a database, so there is no second like it."""
    benchmark.pedantic(in_a_program, args=(work, where, sent), rounds=1)


def test_bare_rows_into_sqlite(benchmark: BenchmarkFixture, sent: Path, place: Any) -> None:
    """The baseline: the same rows by executemany, verified by nobody."""
    once(benchmark, "bare", place("sqlite"), sent)


@pytest.mark.ratio(to="test_bare_rows_into_sqlite", at_most=2.0)
def test_merge_into_sqlite(benchmark: BenchmarkFixture, sent: Path, place: Any) -> None:
    """Segments opened, signatures, chains and entries judged, rows taken in, one file a commit."""
    once(benchmark, "merge", place("sqlite"), sent)


def test_bare_rows_into_postgresql(benchmark: BenchmarkFixture, sent: Path, place: Any) -> None:
    """The baseline: the same rows by COPY straight into the table."""
    once(benchmark, "bare", place("postgresql"), sent)


@pytest.mark.ratio(to="test_bare_rows_into_postgresql", at_most=2.0)
def test_merge_into_postgresql(benchmark: BenchmarkFixture, sent: Path, place: Any) -> None:
    """The same merge into PostgreSQL."""
    once(benchmark, "merge", place("postgresql"), sent)


@pytest.fixture(scope="module", params=KINDS)
def full(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """An office with as many entries in jobs of up to 50,000 each, its figures ready."""
    if request.param == "sqlite":
        where = str(tmp_path_factory.mktemp("full") / "office.db")
    else:
        server: Postgres = request.getfixturevalue("server")
        where = server.new_database()
    with Office.open(where, make=True) as office:
        season.fill(office, ROWS)
        refresh_index(office, season.NOW_MS)
        yield office


@pytest.mark.limit(at_most_ms=1000)
@pytest.mark.parametrize("span", ["day", "all"])
def test_report(benchmark: BenchmarkFixture, full: Office, span: str) -> None:
    """The report of one day, and of all days, with open flags over all jobs."""
    day = season.A_DAY if span == "day" else ""

    report = benchmark(lambda: read_report(full, day, day))

    assert report.total.entries > 0


def test_index_of_all_jobs(benchmark: BenchmarkFixture, full: Office) -> None:
    """All figures thrown away and worked out anew."""

    def make() -> None:
        drop_index(full)
        refresh_index(full, season.NOW_MS)

    benchmark.pedantic(make, rounds=1)
