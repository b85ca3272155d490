"""The one command that runs the benchmarks finds every one of them."""

from __future__ import annotations

import os
import subprocess
import sys

from tests.house.tree import ROOT


def test_every_benchmark_is_found_when_asked_for() -> None:
    """Each file of benchmarks gives at least one to the command of the developers' page."""
    command = [sys.executable, "-m", "pytest", "tests/benchmarks", "--benchmark-only"]
    # As from a shell: a worker of a shared-out run would be taken for one by the plugin.
    shell = {name: told for name, told in os.environ.items() if "XDIST" not in name}
    asked = [*command, "--collect-only", "-q"]
    done = subprocess.run(asked, cwd=ROOT, env=shell, capture_output=True, text=True, check=False)
    files = [path.name for path in (ROOT / "tests/benchmarks").glob("bench_*.py")]

    assert files
    assert [name for name in files if name not in done.stdout] == []
