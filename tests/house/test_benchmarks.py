"""The one command that runs the benchmarks finds every one of them."""

from __future__ import annotations

import subprocess
import sys

from tests.house.tree import ROOT


def test_every_benchmark_is_found_when_asked_for() -> None:
    """Each file of benchmarks gives at least one to the command of the developers' page."""
    command = [sys.executable, "-m", "pytest", "tests/benchmarks", "--benchmark-only"]
    done = subprocess.run(
        [*command, "--collect-only", "-q"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    files = [path.name for path in (ROOT / "tests/benchmarks").glob("bench_*.py")]

    assert files
    assert [name for name in files if name not in done.stdout] == []
