"""A tablet without the geometry library logs, checks and prints; planning says what is missing."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

PLAN = ROOT / "fixtures" / "plans" / "small.json"

# Every one of these is as good as not installed.
WITHOUT = """
import sys
for name in ("shapely", "numpy", "ezdxf", "pyproj"):
    sys.modules[name] = None
"""

DEMO = """
from crewapp.cli.main import main
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


@pytest.fixture(scope="module")
def laid_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book whose lines were laid where the library is, with drives and crossings kept."""
    book = tmp_path_factory.mktemp("laid") / "laid.book"
    slits = ["--sand-slits", "16in", "--sand-bearing", "90", "--sand-machine", "twin"]
    for words in (
        ["plan", str(book), str(PLAN)],
        ["plan", "layout", str(book), "--surface", "G7", *slits, "--piped-slits", "4ft"],
    ):
        done = subprocess.run(
            [sys.executable, "-m", "crewapp", *words], cwd=ROOT, capture_output=True, check=False
        )
        assert done.returncode == 0, done.stderr
    return book


def test_a_book_with_a_layout_is_worked_without_it(laid_book: Path, tmp_path: Path) -> None:
    """Logged, checked, shown and printed from the lines, drives and joints kept in the plan."""
    notes = tmp_path / "notes.csv"
    notes.write_text(
        "day,entry,surface,pass,lines,length,at,depth\n"
        "2026-05-11,pass,G7,A,S01 S04,30,,\n2026-05-11,probe,,A,S01,,2,9\n",
        encoding="utf-8",
    )
    out = str(tmp_path / "out")

    for words in (
        ["plan", "show", str(laid_book), "--json"],
        ["log", str(laid_book), str(notes)],
        ["check", str(laid_book)],
        ["sheet", str(laid_book), "--out", out],
    ):
        done = run(DEMO, *words)
        assert done.returncode in (0, 1), done.stderr
        assert "Traceback" not in done.stderr
    assert list((tmp_path / "out").glob("*.pdf"))


@pytest.mark.parametrize(
    "words",
    [
        ["layout", "BOOK", "--surface", "G7", "--sand-slits", "16in"],
        ["compare", "BOOK", "--surface", "G7", "--sand-slits", "16in"],
        ["import", "BOOK", "FILE.csv", "--surface", "G7"],
        ["import", "BOOK", "FILE.json"],
    ],
    ids=lambda words: " ".join(words[:3]),
)
def test_commands_of_planning_say_what_is_missing(
    laid_book: Path, tmp_path: Path, words: list[str]
) -> None:
    """One sentence and exit 2; nothing is written."""
    (tmp_path / "FILE.csv").write_text("x,y\n0,0\n60,0\n0,60\n0,0\n", encoding="utf-8")
    plan = json.loads(PLAN.read_text(encoding="utf-8"))
    plan["surface"][0]["layout"] = {"sand_slits": {"bearing": 0}}
    (tmp_path / "FILE.json").write_text(json.dumps(plan), encoding="utf-8")
    named = {"BOOK": str(laid_book)} | {path.name: str(path) for path in tmp_path.glob("FILE.*")}
    before = laid_book.read_bytes()

    done = run(DEMO, "plan", *(named.get(word, word) for word in words))

    assert done.returncode == 2
    assert done.stderr.startswith("crewapp: Cannot plan here: the geometry library")
    assert laid_book.read_bytes() == before


@pytest.mark.parametrize(
    "line",
    [
        "import models.science.layout.layout",
        "import crewapp.handlers.plan.layout",
        "import models.science.shapes.outline",
        "import models.science.layout.crossings",
        "import models.readers.outlines.geojson",
        "from sync.dxf_import.outlines_dxf import read_drawing; read_drawing(b'0', 'GREEN')",
    ],
)
def test_planning_without_it_says_so(line: str) -> None:
    """One sentence: what is missing, what goes on, what to install."""
    done = run(PLANNING.format(line=line))

    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("plan.absent Cannot plan here: the geometry library")
    assert (
        "the wheel file you were given once more, with [plan] or [all] behind its name"
        in done.stdout
    )


@pytest.mark.parametrize(
    "name",
    [
        "shapes.rings",
        "layout.interleave",
        "layout.layout_types",
        "layout.driving",
        "shapes.projection",
    ],
)
def test_what_needs_no_geometry_goes_on_without_it(name: str) -> None:
    """Kept lines, their passes and the local plane are plain arithmetic."""
    done = run(f"import models.science.{name}")

    assert done.returncode == 0, done.stderr
