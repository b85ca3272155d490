"""What a day sheet costs, from the job state to the bytes of the file.

Run: python -m pytest tests/benchmarks/bench_sheet.py --benchmark-only
"""

from __future__ import annotations

import subprocess
import sys

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from sync.papers.day.day_files import SheetFormat, build_day_sheet
from tests.sync.papers.sample_day import US_DAY, long_book, us_book

READY = (
    "from tests.sync.papers.sample_day import US_DAY, us_book;"
    "from sync.papers.day.day_files import build_day_sheet;"
    "book = us_book(); board = book.board();"
)
PRINTED = READY + "build_day_sheet(book.state, board, US_DAY)"


def run(code: str) -> None:
    """Run a fresh program."""
    subprocess.run([sys.executable, "-c", code], check=True)


def test_program_that_does_not_print(benchmark: BenchmarkFixture) -> None:
    """Baseline: a program started anew that holds the job and loads the PDF library."""
    benchmark.pedantic(run, (READY + "import fpdf",), rounds=5, warmup_rounds=1)


@pytest.mark.ratio(to="test_program_that_does_not_print", at_most=1.5)
def test_first_sheet_of_a_fresh_program(benchmark: BenchmarkFixture) -> None:
    """The same program, which also reads its fonts and prints its first sheet."""
    benchmark.pedantic(run, (PRINTED,), rounds=5, warmup_rounds=1)


@pytest.mark.limit(at_most_ms=1000)
@pytest.mark.parametrize("format", list(SheetFormat))
def test_sheet_of_an_ordinary_day(benchmark: BenchmarkFixture, format: SheetFormat) -> None:
    """A sheet in a program that has printed before."""
    book = us_book()
    board = book.board()
    benchmark(build_day_sheet, book.state, board, US_DAY, format=format)


@pytest.mark.limit(at_most_ms=1000)
def test_sheet_of_a_long_day(benchmark: BenchmarkFixture) -> None:
    """Four hundred probes, sixty tickets, a long note: three pages or so."""
    book = long_book()
    board = book.board()
    benchmark(build_day_sheet, book.state, board, US_DAY)
