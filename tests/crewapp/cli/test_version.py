"""``crewapp --version``: one line that says which program, what it writes, what it stands on."""

from __future__ import annotations

import json
import platform
import re
import sqlite3
import subprocess
import sys
import zlib
from contextlib import closing
from importlib.metadata import version
from pathlib import Path

import pytest

from crewapp.cli.main import main
from crewapp.version import VERSION
from models.book.store import Book
from tests.house.test_start import HEAVY, run_code
from tests.house.tree import ROOT

LINE = re.compile(
    r"crewapp (\S+) \(book (\d+), segment (\d+)\) Python (\S+), Kivy (\S+), SQLite (\S+)\n"
)


def test_line_names_what_is_here(capsys: pytest.CaptureFixture[str]) -> None:
    """The program's version, and those of Python, Kivy and SQLite as each tells its own."""
    assert main(["--version"]) == 0
    found = LINE.fullmatch(capsys.readouterr().out)

    assert found
    with closing(sqlite3.connect(":memory:")) as memory:
        engine = memory.execute("SELECT sqlite_version()").fetchone()[0]
    assert found.group(1, 4, 5, 6) == (VERSION, platform.python_version(), version("kivy"), engine)


def test_formats_are_those_that_are_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The number that SQLite keeps in a new book, and that of a segment handed on before."""
    main(["--version"])
    found = LINE.fullmatch(capsys.readouterr().out)
    Book.create(tmp_path / "new.book", stream="tablet-a", reserve_bytes=4096).close()
    with closing(sqlite3.connect(tmp_path / "new.book")) as book:
        step = book.execute("PRAGMA user_version").fetchone()[0]
    packed = next((ROOT / "fixtures" / "segments").rglob("*.seg")).read_bytes()
    header = json.loads(zlib.decompress(packed).split(b"\n")[0])

    assert found
    assert found.group(2, 3) == (str(step), str(header["version"]))


def test_module_says_the_same() -> None:
    """``python -m crewapp --version`` is the same line."""
    words = [sys.executable, "-m", "crewapp", "--version"]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)

    assert (done.returncode, done.stderr) == (0, "")
    assert LINE.fullmatch(done.stdout)


def test_nothing_heavy_is_asked(tmp_path: Path) -> None:
    """Neither storage nor Kivy is imported to tell the versions."""
    code = "import sys; from crewapp.cli.main import main; main(['--version']); print(*sys.modules)"

    assert set(run_code(code, tmp_path).split()) & (HEAVY | {"kivy"}) == set()
