"""Examples of every command: shown at the end of its help, and run on the demo's book."""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

from crewapp.cli import main as cli
from crewapp.cli.example import Example
from crewapp.cli.main import make_parser
from crewapp.cli.modules import module_of
from crewapp.cli.parser import CommandParser
from crewapp.words.translate import set_language, table

ROOT = Path(__file__).parents[3]
BEFORE = {
    "handover_take": ["crewapp handover make larkfield.book --out larkfield.crew"],
    "office_jobs": ["crewapp office take --files larkfield.book"],
    "office_rebuild": ["crewapp office take --files larkfield.book"],
    "office_report": ["crewapp office take --files larkfield.book"],
    "office_sheet": ["crewapp office take --files larkfield.book"],
    "plan_layout": ["crewapp plan import my.book papers/plan.json"],
}
"""Lines of other commands that make what the examples of one need."""

ENDS_WITH_ONE = {
    "crewapp plan layout larkfield.book --surface F2 --sand-slits 24in --dry-run",  # work is there
}
IN_README = {"open", "pictures"}
"""Commands whose lines README has too: ``tests/readme`` runs them, on a screen, and once is enough.

One opens the app, the other draws every page of it, which takes most of a minute.
"""


def parsers(parser: CommandParser) -> Iterator[CommandParser]:
    """Give a parser and all below it."""
    yield parser
    for inner in parser.works.values():
        assert isinstance(inner, CommandParser)
        yield from parsers(inner)


def commands() -> dict[str, CommandParser]:
    """Return every parser that does something, by the module that does it."""
    found = {}
    for parser in parsers(make_parser()):
        name = parser.get_default("module") or "_".join(parser.prog.split()[1:])
        if not parser.works:
            found[name] = parser
    return found


def examples(name: str) -> tuple[Example, ...]:
    """Return the examples that a command's module holds."""
    held: tuple[Example, ...] = import_module(module_of(name)).EXAMPLES
    return held


def test_every_command_has_examples_and_every_example_a_command() -> None:
    """Each module with a ``run`` is a command, and gives at least one line that calls it."""
    modules = {
        path
        for path in (ROOT / "crewapp" / "cli").rglob("*.py")
        if "\ndef run(" in path.read_text("utf-8")
    }
    names = {*commands(), "version"}  # which is an option of the parser itself
    assert modules == {ROOT / f"{module_of(name).replace('.', '/')}.py" for name in names}

    called = {name: parser.prog for name, parser in commands().items()}
    called |= {"open": "crewapp", "version": "crewapp --version"}
    wrong = [
        f"{name}: {one.line}"
        for name in names
        for one in examples(name)
        if called[name] not in one.line
    ]
    assert wrong == []
    assert [name for name in names if not examples(name)] == []


def test_examples_are_the_last_part_of_the_help(monkeypatch: pytest.MonkeyPatch) -> None:
    """In 80 columns, in both languages, every line whole."""
    monkeypatch.setenv("COLUMNS", "80")
    too_wide = []
    for language in ("en", "es"):
        set_language(language)
        try:
            for parser in parsers(make_parser()):
                told = parser.format_help()
                too_wide += [
                    f"{parser.prog}: {line}" for line in told.splitlines() if len(line) > 80
                ]
                name = parser.get_default("module") or "_".join(parser.prog.split()[1:]) or "open"
                if parser.works and name != "open":
                    continue
                last = examples(name)[-1]
                assert told.endswith(f":\n    {last.line}\n"), parser.prog
                assert (table(language).get(last.does, last.does)) in told
        finally:
            set_language("en")
    assert too_wide == []


def test_examples_that_readme_runs_stand_there() -> None:
    """Word for word, but for what is done with the book before."""
    readme = (ROOT / "README.md").read_text("utf-8")

    assert [
        one.line for name in IN_README for one in examples(name) if one.line not in readme
    ] == []


def in_a_shell(line: str) -> subprocess.CompletedProcess[str]:
    """Run a line as it is typed, the command as it is installed."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    around = os.environ | {"PATH": path}
    return subprocess.run(
        ["bash", "-c", line], env=around, capture_output=True, text=True, check=False
    )


def in_here(line: str, capsys: pytest.CaptureFixture[str]) -> subprocess.CompletedProcess[str]:
    """Run a line's words: starting Python for each line takes longer than what it does."""
    program, *words = shlex.split(line)
    assert program == "crewapp", line
    ended = cli.main(words)
    return subprocess.CompletedProcess(words, ended, *capsys.readouterr())


def is_for_a_shell(line: str) -> bool:
    """Whether a line means something to a shell beyond its words."""
    return bool(set(line) & set("|&;<>$*?`~()"))


@pytest.mark.parametrize("name", sorted(set(commands()) - IN_README))
def test_examples_work_as_they_stand(
    name: str,
    demo_folder: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """In a copy of the demo's folder, in their order; what a shell has to read, in a shell."""
    folder = tmp_path / "demo"
    shutil.copytree(demo_folder, folder)
    monkeypatch.chdir(folder)
    shown = [one.line for one in examples(name)]
    for line in [*BEFORE.get(name, []), *shown]:
        done = in_a_shell(line) if is_for_a_shell(line) else in_here(line, capsys)
        expected = 1 if line in ENDS_WITH_ONE else 0
        assert done.returncode == expected, f"{line}\n{done.stdout}\n{done.stderr}"
        assert "Traceback" not in done.stderr, line
        assert done.stdout.strip(), line
