"""README, from top to bottom: every command that stands there is run, in order, in one shell."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import socket
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from tests.crewapp.cli.test_examples import commands, examples
from tests.readme.collecting import NotRun, Step, UntaggedBlockError, is_printed, read_document
from tests.readme.running import Ran, run_steps, screen_with_a_hand

README = Path(__file__).parents[2] / "README.md"
PORT = "2299"
"""The port that README's server listens on; another machine's tests may have taken it."""

NOT_RUN = {
    "bash .setup/demo": "it sets this machine up; what it makes is made by crewapp demo, below",
    'uv tool install "./FILE.whl[all]"': (
        "no wheel lies in a clone; the tests of packaging build one and install it"
    ),
    "bash .setup/test": "this is what runs the tests",
}
"""First line of each block that is not run, and why: three at most."""

Read = tuple[list[Step], list[NotRun]]

RUN_BESIDE = {"crewapp pictures --book larkfield.book --tablet 10in-coarse --out pictures"}
"""Too long to be done twice: the same line is an example of its command."""

IN_A_WINDOW = {"crewapp", "crewapp larkfield.book", "crewapp out/demo/larkfield.book"}
ENDS_WITH_ONE = {"crewapp office report --db office.db --by crew --html report.html"}
"""A flag that stops the work stands open in the walk, as README says below it."""

STANDS_ON = {"sshd": "/usr/sbin/sshd", "postgres": "pg_virtualenv", "screen": "Xvfb"}


@pytest.fixture(scope="module")
def read() -> Read:
    """README's steps, and what is not run."""
    return read_document(README)


@pytest.fixture(scope="module")
def run(read: Read, tmp_path_factory: pytest.TempPathFactory) -> tuple[list[Ran], int]:
    """All of README, run once, and how many windows were seen."""
    steps, _ = read
    missing = [what for what, program in STANDS_ON.items() if shutil.which(program) is None]
    assert not missing, f"README stands on {missing}: bash .setup/install test brings them"
    top = tmp_path_factory.mktemp("readme")
    folder, home = top / "empty", top / "home"
    folder.mkdir()
    home.mkdir()
    port = free_port()
    typed = [
        replace(one, typed=one.typed.replace(PORT, port))
        for one in steps
        if one.typed not in RUN_BESIDE
    ]
    with screen_with_a_hand() as (display, ended), server_ended(folder):
        ran = run_steps(typed, folder, home, {"DISPLAY": display})
    return ran, len(ended)


@pytest.fixture(scope="module")
def ran(run: tuple[list[Ran], int]) -> list[Ran]:
    """What each step of README printed."""
    return run[0]


def free_port() -> str:
    """A port that nobody listens on."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return str(asked.getsockname()[1])


@contextlib.contextmanager
def server_ended(folder: Path) -> Iterator[None]:
    """Whatever README's lines left running is ended."""
    try:
        yield
    finally:
        for path in folder.rglob("sshd.pid"):
            with contextlib.suppress(ProcessLookupError, ValueError):
                os.kill(int(path.read_text("utf-8")), signal.SIGTERM)


def test_what_is_not_run_is_listed_with_its_reason(read: Read) -> None:
    """Three blocks at most, each with the reason that stands beside it in README."""
    _, left = read

    assert {one.typed.splitlines()[0]: one.why for one in left} == NOT_RUN
    assert len(left) <= 3


def test_every_command_of_the_readme_does_what_it_says(ran: list[Ran]) -> None:
    """Exit 0, what is printed is of the form shown, and nothing falls over."""
    wrong = [
        f"README.md:{one.step.line}: {one.step.typed} ended with {one.code}:\n{one.printed}"
        for one in ran
        if one.code != (one.step.typed in ENDS_WITH_ONE)
        or "Traceback" in one.printed
        or not is_printed(one.step.printed, one.printed)
    ]

    assert not wrong, "\n\n".join(wrong)


def test_the_app_comes_up_where_it_says_so(run: tuple[list[Ran], int]) -> None:
    """Each line that opens the app brought a window onto a real screen, and it was seen there."""
    ran, seen = run

    assert {one.line for one in examples("open")} <= IN_A_WINDOW
    assert seen == len(IN_A_WINDOW)
    assert sum(one.step.typed in IN_A_WINDOW for one in ran) == seen


def test_a_line_that_is_run_beside_is_an_example(read: Read) -> None:
    """It stands in README, and ``test_examples.py`` runs it on the demo as well."""
    assert {one.typed for one in read[0]} >= RUN_BESIDE
    assert {one.line for name in commands() for one in examples(name)} >= RUN_BESIDE


def test_the_table_has_a_line_for_every_command(read: Read) -> None:
    """No command is left out, and no row names one that is not there."""
    rows = [one.typed for one in read[0] if not one.is_whole and one.typed.startswith("crewapp")]
    for parser in commands().values():
        if parser.prog != "crewapp open":
            assert any(f"{row} ".startswith(f"{parser.prog} ") for row in rows), parser.prog


def test_the_walk_stands_on_real_servers(ran: list[Ran]) -> None:
    """Bytes went over SFTP and into PostgreSQL: the server's own folder and its table show them."""
    by_typed = {one.step.typed: one.printed for one in ran}
    hours = next(told for typed, told in by_typed.items() if typed.startswith("pg_virtualenv"))

    assert "Wren" in hours
    assert "Ash" in hours
    assert sum(told.strip().endswith("the same") for told in by_typed.values()) == 2


def test_the_plan_of_the_table_is_sound(ran: list[Ran]) -> None:
    """What README lays out overlaps nothing: its audit has nothing to ask."""
    laid = [one for one in ran if one.step.typed.startswith("crewapp plan ")]

    assert len(laid) >= 8
    assert [one.step.typed for one in laid if "  asks: " in one.printed] == []


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("    crewapp check\n", ":1: an indented block has no tag"),
        ("```\ncrewapp check\n```\n", ":1: tag it as one of"),
        ("```python\nx\n```\n", ":1: tag it as one of"),
        ("words\n```sh\nls\n", ":2: this block is not closed"),
    ],
)
def test_a_block_that_nobody_would_run_is_refused(text: str, says: str, tmp_path: Path) -> None:
    """An untagged block would be left out unseen."""
    path = tmp_path / "doc.md"
    path.write_text(text, "utf-8")

    with pytest.raises(UntaggedBlockError, match=says):
        read_document(path)


def test_steps_are_read_as_they_are_typed(tmp_path: Path) -> None:
    """Continued lines, rows of a table, what is printed, needs and reasons."""
    path = tmp_path / "doc.md"
    path.write_text(
        "```console needs=sshd,screen\n$ echo one \\\n> two\none two\n$ true\n```\n"
        "| `crewapp check` | looks |\n| `other` | not ours |\n"
        '```sh notrun="too dear"\nrm -rf x\n```\n```sh\na=1\nb=2\n```\n',
        "utf-8",
    )

    steps, left = read_document(path)

    assert [(one.line, one.typed, one.printed) for one in steps] == [
        (2, "echo one \\\ntwo", "one two"),
        (5, "true", ""),
        (7, "crewapp check", ""),
        (13, "a=1\nb=2", ""),
    ]
    assert steps[0].needs == {"sshd", "screen"}
    assert left == [NotRun(9, "rm -rf x", "too dear")]


@pytest.mark.parametrize(
    ("expected", "got", "fits"),
    [
        ("", "anything", True),
        ("...", "a\nb", True),
        ("a\n...\nd", "a\nb\nc\nd", True),
        ("a\n...\nd", "a\nd", True),
        ("...\nd", "b\nc\nd\n", True),
        ("a\n...", "a", True),
        ("x ... z", "x y z", True),
        ("x ... z", "x y", False),
        ("a.c", "abc", False),
        ("a\n...\nd", "a\nb", False),
        ("a", "a\nb", False),
    ],
)
def test_what_is_printed_is_compared_line_by_line(expected: str, got: str, fits: bool) -> None:
    """Three dots stand for anything, and nothing else does."""
    assert is_printed(expected, got) is fits


def test_a_shell_that_ends_early_is_told(tmp_path: Path) -> None:
    """A block whose line fails stops the run and is named; a lone command only tells its code."""
    folder = tmp_path / "empty"
    folder.mkdir()
    lone = run_steps(
        [Step(1, "false"), Step(2, "cd /; x=5"), Step(3, "echo $x $PWD")], folder, folder, {}
    )

    assert [one.code for one in lone] == [1, 0, 0]
    assert lone[2].printed.strip() == "5 /"
    with pytest.raises(AssertionError, match="line 9 did not end well"):
        run_steps([Step(9, "false\ntrue", is_whole=True)], folder, folder, {})
