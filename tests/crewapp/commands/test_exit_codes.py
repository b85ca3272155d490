"""What README says of every command: exit 0, 1 or 2, and ``--json`` for machines."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.crewapp.commands.test_examples import BEFORE, ENDS_WITH_ONE, commands, examples

NO_JSON = {"open"}
"""The app itself: it prints nothing."""

DRAWN_ELSEWHERE = {"pictures"}
"""Its JSON is read by ``tests/readme/test_readme_pictures.py``, which draws no more than needed."""

NOT_CLOSED = "point,BS,FS,elevation\nBM1,4.32,,100.00\nTP1,5.10,3.95,\nBM1,,5.07,\n"
CODES = {
    "check larkfield.book": 0,
    "check stops.book": 1,
    "check gone.book": 2,
    "levels papers/levels.csv": 0,
    "levels open.csv": 1,
    "levels gone.csv": 2,
    "verify larkfield.book": 0,
    "verify larkfield.book --code X3TP-A2QD-KBBT-13Z9-KFR7": 1,
    "verify larkfield.book --code what": 2,
    "plan layout larkfield.book --surface F2 --sand-slits 24in --dry-run": 1,
    "plan layout larkfield.book --surface F2 --sand-slits 24in": 2,
    "sync larkfield.book --store /nowhere/at/all": 1,
    "sync larkfield.book --store nowhere": 2,
    "sheet larkfield.book --day 2026-05-13 --out papers/notes.csv": 2,
    "sheet larkfield.book --day yesterday": 2,
    "tablets larkfield.book --add nonsense": 2,
    "log larkfield.book papers/g9.csv": 2,
    "sieve larkfield.book papers/sieve.csv --material gold": 2,
    "office report --db /nowhere/at/all.db": 2,
    "plan show papers/notes.csv": 2,
    "progress larkfield.book --day never": 2,
    "nothing": 2,
    "check": 2,
}
"""A line and how it ends: fine, something stops, bad input."""


@pytest.fixture
def folder(demo_folder: Path, tmp_path: Path) -> Path:
    """A copy of the demo's folder."""
    return Path(shutil.copytree(demo_folder, tmp_path / "demo"))


def run(folder: Path, line: str) -> subprocess.CompletedProcess[str]:
    """Type a line in the folder."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    around = os.environ | {"PATH": path, "CREWAPP_HOME": str(folder.parent / "home")}
    return subprocess.run(
        ["bash", "-c", line], cwd=folder, env=around, capture_output=True, text=True, check=False
    )


def test_every_command_takes_json() -> None:
    """All but the app itself."""
    without = {name for name, one in commands().items() if "--json" not in one.format_usage()}

    assert without == NO_JSON


@pytest.mark.parametrize("name", sorted(set(commands()) - NO_JSON - DRAWN_ELSEWHERE))
def test_json_is_json(name: str, folder: Path) -> None:
    """Its first example with ``--json``: one value on stdout, and the same exit code."""
    line = examples(name)[0].line
    for before in BEFORE.get(name, []):
        assert run(folder, before).returncode == 0

    done = run(folder, f"{line} --json")

    assert json.loads(done.stdout), line
    assert done.returncode == (line in ENDS_WITH_ONE), done.stderr


def test_lines_end_as_the_readme_says(folder: Path) -> None:
    """Bad input is told in a sentence on stderr, and the book stays as it was."""
    (folder / "open.csv").write_text(NOT_CLOSED, "utf-8")
    assert run(folder, "crewapp plan import stops.book papers/plan.json").returncode == 0
    after_the_ticket = "sed s/2026-05-14/2026-08-14/ papers/notes.csv > late.csv"
    assert run(folder, f"{after_the_ticket} && crewapp log stops.book late.csv").returncode == 0
    book = run(folder, "crewapp verify larkfield.book").stdout
    wrong = []
    for line, code in CODES.items():
        done = run(folder, f"crewapp {line}")
        if done.returncode != code or "Traceback" in done.stderr:
            wrong.append(f"{line}: {done.returncode}, not {code}: {done.stderr[-300:]}")
        if code == 2 and "crewapp" not in done.stderr:
            wrong.append(f"{line}: nothing is told")

    assert wrong == []
    assert run(folder, "crewapp verify larkfield.book").stdout == book
