"""What the record of a job costs: of the demo's job, and of one of two thousand lines.

Run: python -m pytest tests/benchmarks/bench_asbuilt.py --benchmark-only
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from crewapp.cli.books import book_to_read
from crewapp.demo.story import demo_job, work_days
from models.checks.flag_board import FlagBoard
from models.state.job_state import JobState
from sync.papers.asbuilt.package import build_package
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.papers.asbuilt.plans.paper_sizes import PaperSize
from sync.papers.asbuilt.records.facts import Facts, gather_facts
from sync.papers.asbuilt.xlsx_file import build_as_built_xlsx
from tests.sync.papers.day_writer import FT, IN, YD3, DayWriter
from tests.sync.papers.sample_plan import pattern, us_plan

LINES = 2000
LONG_FT = 200


@cache
def two_thousand_lines() -> tuple[JobState, FlagBoard]:
    """A field of two thousand slits of 200 ft, all cut, three probes a line, sand in each."""
    book = DayWriter()
    us_plan(book)
    lines = [
        {
            "line_id": f"S{n:04d}",
            "use": "sand_slit",
            "x1_nm": n * 16 * IN,
            "y1_nm": 0,
            "x2_nm": n * 16 * IN,
            "y2_nm": LONG_FT * FT,
            "length_nm": LONG_FT * FT,
        }
        for n in range(1, LINES + 1)
    ]
    slits = pattern(IN, 16, 9)
    book.write(
        "surface", surface_id="F1", name="Long field", use="field", sand_slits=slits, lines=lines
    )
    for n in range(1, LINES + 1):
        book.on(f"2026-06-{8 + n * 20 // (LINES + 1):02d}", 7 * 60 + n % 400)
        pass_id = f"F1-{n:04d}"
        cut = {"pass_id": pass_id, "surface_id": "F1"}
        book.write("pass", **cut, line_ids=[f"S{n:04d}"], length_nm=LONG_FT * FT)
        for along in (3, 100, 197):
            place = {"line_id": f"S{n:04d}", "along_nm": along * FT}
            book.write("probe", pass_id=pass_id, **place, depth_nm=(71 + n % 3) * IN // 8)
        book.write("sand_placed", **cut, material_id="Sand A", volume_pl=YD3 // 2)
    return book.state, book.board()


@cache
def demo(folder: Path) -> tuple[JobState, FlagBoard]:
    """The demo's job after its first three days."""
    path = folder / "demo.book"
    with demo_job(path) as job:
        for _ in work_days(job):
            pass
    with book_to_read(path) as job:
        return job.state, job.board


@cache
def big_facts() -> Facts:
    """The large job, gathered."""
    return gather_facts(*two_thousand_lines())


@pytest.fixture(scope="module")
def demo_parts(tmp_path_factory: pytest.TempPathFactory) -> tuple[JobState, FlagBoard]:
    """The demo's state and flags, made once."""
    return demo(tmp_path_factory.mktemp("demo"))


@pytest.mark.limit(at_most_ms=5000)
def test_package_of_the_demo(
    benchmark: BenchmarkFixture, demo_parts: tuple[JobState, FlagBoard]
) -> None:
    """Every file of the demo's package, from its state to the last byte."""
    benchmark.pedantic(lambda: list(build_package(*demo_parts).files()), rounds=3, warmup_rounds=1)


@pytest.mark.limit(at_most_ms=2000)
@pytest.mark.parametrize("paper", PaperSize)
def test_pdf_of_the_demo(
    benchmark: BenchmarkFixture, demo_parts: tuple[JobState, FlagBoard], paper: PaperSize
) -> None:
    """The printed record of the demo, on every paper."""
    facts = gather_facts(*demo_parts)
    benchmark.pedantic(build_as_built_pdf, (facts,), {"paper": paper}, rounds=3, warmup_rounds=1)


@pytest.mark.limit(at_most_ms=10_000)
def test_gathering_two_thousand_lines(benchmark: BenchmarkFixture) -> None:
    """Tables and features of two thousand lines and six thousand probes."""
    benchmark.pedantic(gather_facts, two_thousand_lines(), rounds=2)


@pytest.mark.limit(at_most_ms=20_000)
def test_pdf_of_two_thousand_lines(benchmark: BenchmarkFixture) -> None:
    """Its plans, cut over sheets where lines would run together, and its tables."""
    benchmark.pedantic(build_as_built_pdf, (big_facts(),), rounds=2)


@pytest.mark.limit(at_most_ms=10_000)
def test_workbook_of_two_thousand_lines(benchmark: BenchmarkFixture) -> None:
    """Its workbook, every probe in it."""
    benchmark.pedantic(build_as_built_xlsx, (big_facts(),), rounds=2)
