"""A hundred programs killed in mid-exchange; the suite does the same with a few.

Run: python -m pytest tests/benchmarks/bench_kills.py --benchmark-only -s
"""

from __future__ import annotations

from pathlib import Path

from pytest_benchmark.fixture import BenchmarkFixture

from tests.sync.exchange.test_kill import kill_in_turn

KILLS = 100


def test_hundred_kills(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """Of two tablets in turn: every entry told of is in both books, and both are alike."""
    told = benchmark.pedantic(kill_in_turn, args=(tmp_path, KILLS), rounds=1)
    print(f"\n{KILLS} kills, {told} entries told of, none lost")
    assert told > KILLS
