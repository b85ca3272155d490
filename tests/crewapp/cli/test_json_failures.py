"""A command that fails under ``--json``: one JSON object on stdout, and the same exit code."""

from __future__ import annotations

import json
import shutil
from argparse import Namespace
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli import columns as columns_command
from crewapp.cli.main import BAD_INPUT, STOPPED, STOPS, UNFORESEEN, main
from tests.crewapp.cli.test_examples import commands
from tests.crewapp.cli.test_exit_codes import NO_JSON

Captured = pytest.CaptureFixture[str]
FAILS: dict[str, tuple[str, int, str]] = {
    "asbuilt": ("asbuilt gone.book", 2, "commands.book_missing"),
    "check": ("check gone.book", 2, "commands.book_missing"),
    "columns": ("columns --nonsense", 2, "cli.words"),
    "demo": ("demo --out papers/notes.csv", 2, ""),
    "gates": ("plan gates papers/notes.csv", 2, ""),
    "handover_make": ("handover make larkfield.book --out papers/notes.csv", 2, ""),
    "handover_take": ("handover take papers/notes.csv --book new.book", 2, "handover.unreadable"),
    "levels": ("levels papers/notes.csv", 2, "levels.notes"),
    "log": ("log larkfield.book papers/g9.csv", 2, "paper.unreadable"),
    "office_jobs": ("office jobs --db gone.db", 2, ""),
    "office_rebuild": ("office rebuild --db gone.db", 2, ""),
    "office_report": ("office report --db gone.db", 2, ""),
    "office_sheet": ("office sheet --db gone.db --job x", 2, ""),
    "office_take": ("office take", 2, ""),
    "pictures": ("pictures --book gone.book", 2, ""),
    "plan_audit": ("plan audit gone.book", 2, "commands.book_missing"),
    "plan_compare": ("plan compare larkfield.book --surface NONE", 2, ""),
    "plan_import": ("plan import my.book papers/notes.csv --surface N --name N --use green", 2, ""),
    "plan_layout": ("plan layout larkfield.book --surface F2 --sand-slits 24in", 2, ""),
    "plan_show": ("plan show papers/notes.csv", 2, ""),
    "progress": ("progress larkfield.book --day never", 2, ""),
    "schema": ("schema --nonsense", 2, "cli.words"),
    "sheet": ("sheet larkfield.book --day yesterday", 2, ""),
    "sieve": ("sieve larkfield.book papers/sieve.csv --material gold", 2, ""),
    "stakeout": ("plan stakeout larkfield.book --setup NONE", 2, ""),
    "sync": ("sync larkfield.book --store /nowhere/at/all", 1, "store.unreachable"),
    "tablets": ("tablets larkfield.book --add nonsense", 2, ""),
    "takeoff": ("plan takeoff larkfield.book --with nonsense", 2, ""),
    "verify": ("verify larkfield.book --code what", 2, ""),
}
"""For each command a line that fails, how it ends, and its code where one test fixes it."""


@pytest.fixture
def folder(demo_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the demo's folder, worked in."""
    copy = Path(shutil.copytree(demo_folder, tmp_path / "demo"))
    monkeypatch.chdir(copy)
    return copy


def run(line: str, capsys: Captured) -> tuple[int, dict[str, Any], str]:
    """Type a line with ``--json``: its exit code, its one object, and its error stream."""
    capsys.readouterr()
    try:
        code = main([*line.split(), "--json"])
    except SystemExit as stopped:
        code = int(stopped.code or 0)
    printed = capsys.readouterr()
    told = json.loads(printed.out)
    assert isinstance(told, dict), line
    return code, told, printed.err


def test_every_command_that_takes_json_has_a_line_that_fails() -> None:
    """A new command has one, too."""
    assert set(FAILS) == set(commands()) - NO_JSON


@pytest.mark.parametrize("name", FAILS)
def test_a_failure_is_one_object(folder: Path, capsys: Captured, name: str) -> None:
    """The sentence of the error stream, its code, and the exit code it ends with."""
    line, expected, named = FAILS[name]
    code, told, said = run(line, capsys)

    assert (code, told["exit"]) == (expected, expected), said
    assert told["code"] == (named or told["code"]) != ""
    assert expected == STOPS or told["error"].splitlines()[-1] in said


def test_words_that_are_no_command_are_told_too(capsys: Captured) -> None:
    """Also where nothing could be asked for."""
    code, told, _ = run("chek larkfield.book", capsys)

    assert (code, told["code"]) == (BAD_INPUT, "cli.words")
    assert "check" in told["error"]


def test_a_file_with_several_faults_lists_each(folder: Path, capsys: Captured) -> None:
    """Rows of notes, of levels, and of a plan that the audit refuses."""
    Path("bad.csv").write_text("day,entry,note\nnever,note,x\n2026-05-11,nothing,x\n", "utf-8")
    _, told, _ = run("log larkfield.book bad.csv", capsys)
    assert {one["row"] for one in told["problems"]} == {2, 3}
    assert all(one["sentence"] in told["error"] for one in told["problems"])

    Path("levels.csv").write_text("point,BS,IS,FS\nBM1,x,,\nA,,y,\n", "utf-8")
    _, told, _ = run("levels levels.csv", capsys)
    assert {(one["row"], one["read"]) for one in told["problems"]} >= {(2, "x"), (3, "y")}

    plan = json.loads(Path("papers/plan.json").read_text("utf-8"))
    for surface in plan["surface"][:2]:
        surface["sand_slits"]["depth"] = "0 in"
    Path("bad.json").write_text(json.dumps(plan), "utf-8")
    _, told, _ = run("plan import new.book bad.json", capsys)
    assert len(told["problems"]) == 2
    assert all("depth of nothing" in one["sentence"] for one in told["problems"])


@pytest.mark.parametrize(
    ("fault", "exit_code", "named"),
    [
        (RuntimeError("nobody foresaw"), UNFORESEEN, "cli.unforeseen"),
        (KeyboardInterrupt(), STOPPED, "cli.stopped"),
        (OSError(5, "Input/output error"), BAD_INPUT, "cli.storage"),
    ],
)
def test_what_was_printed_before_a_fault_is_not_mixed_in(
    monkeypatch: pytest.MonkeyPatch,
    capsys: Captured,
    fault: BaseException,
    exit_code: int,
    named: str,
) -> None:
    """The one object is the fault's, whatever the command had printed by then."""

    def print_and_fail(_args: Namespace) -> int:
        print(json.dumps({"done": True}))
        raise fault

    monkeypatch.setattr(columns_command, "run", print_and_fail)
    code, told, said = run("columns", capsys)

    assert (code, told["exit"], told["code"]) == (exit_code, exit_code, named)
    assert told["error"] in said
