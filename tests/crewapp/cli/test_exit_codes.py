"""What README says of every command: exit 0, 1 or 2, and ``--json`` for machines."""

from __future__ import annotations

import json
import os
import shlex
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

import pytest

from crewapp.cli.main import main
from tests.crewapp.cli.test_examples import BEFORE, ENDS_WITH_ONE, commands, examples

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


@dataclass(frozen=True)
class Done:
    """How a line ended."""

    code: int
    out: str
    err: str


class Shell:
    """Types lines in a copy of the demo's folder.

    In this process: each would start a Python of its own, and ``test_examples`` shows that way.
    """

    def __init__(self, folder: Path, captured: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self._captured = captured

    def run(self, line: str) -> Done:
        """Type a line whose last command is crewapp."""
        *before, last = line.split(" && ")
        for one in before:
            subprocess.run(shlex.split(one), cwd=self.folder, check=True)
        words = shlex.split(os.path.expandvars(last))
        assert words[0] == "crewapp"
        try:
            code = main(words[1:])
        except SystemExit as end:  # of argparse: --help, or words that it can't read
            code = int(end.code or 0)
        return Done(code, *self._captured.readouterr())


@pytest.fixture
def shell(
    demo_folder: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Shell:
    """A hand at the keyboard, in a copy of the demo's folder."""
    folder = Path(shutil.copytree(demo_folder, tmp_path / "demo"))
    monkeypatch.chdir(folder)
    monkeypatch.setenv("PWD", str(folder))
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    return Shell(folder, capsys)


def test_every_command_takes_json() -> None:
    """All but the app itself."""
    without = {name for name, one in commands().items() if "--json" not in one.format_usage()}

    assert without == NO_JSON


@pytest.mark.parametrize("name", sorted(set(commands()) - NO_JSON - DRAWN_ELSEWHERE))
def test_json_is_json(name: str, shell: Shell) -> None:
    """Its first example with ``--json``: one value on stdout, and the same exit code."""
    line = examples(name)[0].line
    for before in BEFORE.get(name, []):
        assert shell.run(before).code == 0

    done = shell.run(f"{line} --json")

    assert json.loads(done.out), line
    assert done.code == (line in ENDS_WITH_ONE), done.err


def test_lines_end_as_the_readme_says(shell: Shell) -> None:
    """Bad input is told in a sentence on stderr, and the book stays as it was."""
    (shell.folder / "open.csv").write_text(NOT_CLOSED, "utf-8")
    assert shell.run("crewapp plan import stops.book papers/plan.json").code == 0
    notes = (shell.folder / "papers" / "notes.csv").read_text("utf-8")
    late = notes.replace("2026-05-14", "2026-08-14")  # after the ticket
    (shell.folder / "late.csv").write_text(late, "utf-8")
    assert shell.run("crewapp log stops.book late.csv").code == 0
    book = shell.run("crewapp verify larkfield.book").out
    wrong = []
    for line, code in CODES.items():
        done = shell.run(f"crewapp {line}")
        if done.code != code or "Traceback" in done.err:
            wrong.append(f"{line}: {done.code}, not {code}: {done.err[-300:]}")
        if code == 2 and "crewapp" not in done.err:
            wrong.append(f"{line}: nothing is told")

    assert wrong == []
    assert shell.run("crewapp verify larkfield.book").out == book
