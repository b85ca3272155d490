"""Something nobody foresaw in a command: a sentence, a report without the book, exit 3."""

from __future__ import annotations

import argparse
import platform
from pathlib import Path

import pytest

from crewapp.cli import check
from crewapp.cli import main as cli
from crewapp.version import VERSION

SECRET = "Larkfield, Wren, 8-1/2 in"


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tablet of its own, on which ``crewapp check`` falls over a name of the book."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    monkeypatch.delenv("CREWAPP_DEBUG", raising=False)

    def fall(args: argparse.Namespace) -> int:
        try:
            raise KeyError(SECRET)
        except KeyError as first:
            raise ValueError(f"{SECRET} and {args.book}") from first

    monkeypatch.setattr(check, "run", fall)
    return tmp_path / "home"


def only_report(home: Path) -> str:
    """Return the one report there is."""
    (path,) = (home / "faults").iterdir()
    return path.read_text(encoding="utf-8")


def test_fault_is_told_and_kept(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One line that names the report; the report has versions and places in the program."""
    assert cli.main(["check", "larkfield.book"]) == 3
    said = capsys.readouterr().err
    report = only_report(home)

    assert said.count("\n") == 1
    assert "unforeseen in check (ValueError)" in said
    assert str(next((home / "faults").iterdir())) in said
    assert f"crewapp {VERSION}, command check" in report
    assert f"Python {platform.python_version()}" in report
    assert report.index("builtins.KeyError") < report.index("builtins.ValueError")
    assert f"{__file__}:" in report
    assert "in fall" in report


def test_report_holds_nothing_of_the_book(home: Path) -> None:
    """Neither the errors' words nor the command's arguments, which may quote it."""
    cli.main(["check", "larkfield.book"])
    report = only_report(home)

    assert SECRET not in report
    assert "larkfield.book" not in report


@pytest.mark.parametrize("way", ["option", "surroundings"])
def test_all_is_shown_to_whoever_asks(
    home: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    """By --debug before the command, or by CREWAPP_DEBUG around it: the traceback too."""
    if way == "surroundings":
        monkeypatch.setenv("CREWAPP_DEBUG", "1")
    words = ["--debug"] if way == "option" else []
    assert cli.main([*words, "check", "larkfield.book"]) == 3
    said = capsys.readouterr().err

    assert "Traceback" in said
    assert SECRET in said
    assert only_report(home)


def test_second_fault_does_not_replace_the_first(home: Path) -> None:
    """Two in one second: two reports."""
    cli.main(["check", "a.book"])
    cli.main(["check", "a.book"])

    assert len(list((home / "faults").iterdir())) == 2


def test_report_that_can_not_be_kept_is_said(
    home: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A tablet whose folder takes nothing: still one sentence and exit 3."""
    home.write_text("a file in the way")
    assert cli.main(["check", "larkfield.book"]) == 3

    assert "No report could be kept" in capsys.readouterr().err


def test_plan_is_brought_in_with_debug_too(
    home: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """``crewapp --debug plan BOOK FILE`` is still read as plan import."""
    missing = str(tmp_path / "none.json")
    assert cli.main(["--debug", "plan", str(tmp_path / "a.book"), missing]) == 2

    assert missing in capsys.readouterr().err
