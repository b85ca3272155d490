"""A tablet without the geometry library logs, checks and prints; planning says what is missing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

# Every one of these is as good as not installed.
WITHOUT = """
import sys
for name in ("shapely", "numpy", "ezdxf", "pyproj"):
    sys.modules[name] = None
"""

DEMO = """
from crewapp.cli import main
sys.exit(main(sys.argv[1:]))
"""

PLANNING = """
from models.errors import CrewError
try:
    {line}
except CrewError as error:
    print(error.code, error)
"""


def run(code: str, *words: str) -> subprocess.CompletedProcess[str]:
    """Run code in a Python that lacks the libraries for planning."""
    return subprocess.run(
        [sys.executable, "-c", WITHOUT + code, *words],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )


def test_logging_checks_and_sheets_run_without_it(tmp_path: Path) -> None:
    """The demo job is logged from its kept plan, checked, its days closed and its sheets made."""
    done = run(DEMO, "demo", "--out", str(tmp_path))

    assert done.returncode == 0, done.stderr
    book = tmp_path / "larkfield.book"
    assert list((tmp_path / "sheets").glob("*.pdf"))
    checked = run(DEMO, "check", str(book))
    assert checked.returncode in (0, 1), checked.stderr
    assert "Traceback" not in checked.stderr


@pytest.mark.parametrize(
    "line",
    [
        "import models.calculations.layout",
        "import models.calculations.outline",
        "import models.calculations.crossings",
        "import models.plan_readers.geojson",
        "from sync.plan_dxf import read_drawing; read_drawing(b'0', 'GREEN')",
    ],
)
def test_planning_without_it_says_so(line: str) -> None:
    """One sentence: what is missing, what goes on, what to install."""
    done = run(PLANNING.format(line=line))

    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("plan.absent Cannot plan here: the geometry library")
    assert 'pip install "crewapp[plan]"' in done.stdout


@pytest.mark.parametrize("name", ["ring", "interleave", "laid_lines", "driving", "projection"])
def test_what_needs_no_geometry_goes_on_without_it(name: str) -> None:
    """Kept lines, their passes and the local plane are plain arithmetic."""
    done = run(f"import models.calculations.{name}")

    assert done.returncode == 0, done.stderr
