"""Every command, given a pipe, a device, a folder or a name no disk bears, says so and ends."""

from __future__ import annotations

import os
import shutil
import signal
import socket
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

from crewapp.cli.main import BAD_INPUT, STOPS, main
from tests.crewapp.conftest import FIXTURES
from tests.models.book.test_damage import being_nobody

PLAN = FIXTURES / "plans" / "small.json"
LONGEST_WAIT_S = 60
"""A command that waits for the other end of a pipe waits for ever; this only ends the test."""

GIVEN: dict[str, tuple[str, ...]] = {
    "check": ("check", "BAD"),
    "sheet": ("sheet", "BAD", "--out", "OUT"),
    "verify": ("verify", "BAD"),
    "log into": ("log", "BAD", "NOTES"),
    "log": ("log", "BOOK", "BAD"),
    "levels": ("levels", "BAD"),
    "plan": ("plan", "BOOK", "BAD"),
    "import into": ("plan", "import", "BAD", str(PLAN)),
    "import DXF": ("plan", "import", "BOOK", "BAD", "--surface", "G7", "--form", "dxf"),
    "import GeoJSON": ("plan", "import", "BOOK", "BAD", "--surface", "G7", "--form", "geojson"),
    "import points": ("plan", "import", "BOOK", "BAD", "--surface", "G7", "--form", "points"),
    "layout": ("plan", "layout", "BAD", "--surface", "G7"),
    "compare": ("plan", "compare", "BAD", "--surface", "G7"),
    "show": ("plan", "show", "BAD"),
    "audit": ("plan", "audit", "BAD"),
    "stakeout": ("plan", "stakeout", "BAD", "--out", "OUT"),
    "takeoff": ("plan", "takeoff", "BAD"),
    "gates": ("plan", "gates", "BAD"),
    "sieve into": ("sieve", "BAD", "NOTES", "--material", "sand"),
    "sieve": ("sieve", "BOOK", "BAD", "--material", "sand"),
    "progress": ("progress", "BAD"),
    "sync": ("sync", "BAD", "--store", "FOLDER"),
    "handover make": ("handover", "make", "BAD", "--out", "OUT"),
    "handover take": ("handover", "take", "BAD", "--book", "BOOK"),
    "handover take, new": ("handover", "take", "BAD", "--book", "OUT"),
    "tablets": ("tablets", "BAD"),
    "office take": ("office", "take", "--db", "OUT", "--files", "BAD"),
    "office take into": ("office", "take", "--db", "BAD", "--files", "BOOK"),
    "office jobs": ("office", "jobs", "--db", "BAD"),
    "office report": ("office", "report", "--db", "BAD"),
    "office sheet": ("office", "sheet", "--db", "BAD", "--job", "x"),
    "office rebuild": ("office", "rebuild", "--db", "BAD"),
    "asbuilt": ("asbuilt", "BAD", "--out", "OUT"),
    "pictures": ("pictures", "--book", "BAD", "--out", "OUT"),
}
"""Commands with BAD in each place where a file is read or a book opened."""
GIVEN_OUT: dict[str, tuple[str, ...]] = {
    "sheet": ("sheet", "BOOK", "--out", "BAD"),
    "stakeout": ("plan", "stakeout", "BOOK", "--out", "BAD"),
    "takeoff": ("plan", "takeoff", "BOOK", "--out", "BAD"),
    "asbuilt": ("asbuilt", "BOOK", "--out", "BAD"),
    "handover make": ("handover", "make", "BOOK", "--out", "BAD"),
    "report": ("office", "report", "--db", "office.db", "--html", "BAD"),
    "demo": ("demo", "--out", "BAD"),
    "new book": ("plan", "BAD", str(PLAN)),
}
"""Commands with BAD where something is to be written."""
KINDS = ("pipe", "device", "socket", "folder", "long name", "no name", "ring of links")
BESIDE_OTHERS = ("office take", {"pipe", "device", "socket"})
"""Taking several files goes on with the others, so one that is bad stops nothing."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a book, an office that has taken it in, and a page of notes."""
    folder = tmp_path_factory.mktemp("made")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("CREWAPP_HOME", str(tmp_path_factory.mktemp("home")))
        patch.chdir(folder)
        assert main(["plan", "small.book", str(PLAN)]) == 0
        assert main(["office", "take", "--db", "office.db", "--files", "small.book"]) == 0
    (folder / "notes.csv").write_text("day,entry,note\n2026-05-11,note,x\n")
    return folder


@pytest.fixture
def site(made: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A copy of the folder, on a tablet of its own; whatever waits in it is cut off."""
    monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / "home"))
    folder = tmp_path / "site"
    shutil.copytree(made, folder)
    monkeypatch.chdir(folder)

    def give_up(*_: object) -> None:
        raise AssertionError("the command still waits")

    before = signal.signal(signal.SIGALRM, give_up)
    signal.alarm(LONGEST_WAIT_S)
    yield folder
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


def bad_path(folder: Path, kind: str) -> str:
    """Put something that is no plain file into a folder, or name what can't be there."""
    path = folder / "bad"
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "device":
        path.symlink_to("/dev/zero")  # whoever wrote it anew would lose the link alone
    elif kind == "socket":
        with socket.socket(socket.AF_UNIX) as one:
            one.bind("bad")  # by its short name: a socket's is no longer than 108 bytes
    elif kind == "folder":
        path.mkdir()
    elif kind == "long name":
        return str(folder / ("n" * 300))
    elif kind == "no name":
        return ""
    else:
        path.symlink_to("bad")
    return str(path)


def run(words: tuple[str, ...], folder: Path, bad: str) -> int:
    """Run a command with its words filled in; the parser's own refusal is one, too."""
    named = {"BAD": bad, "BOOK": "small.book", "NOTES": "notes.csv"}
    named |= {"OUT": str(folder / "out"), "FOLDER": str(folder.parent / "home")}
    try:
        return main([named.get(word, word) for word in words])
    except SystemExit as stopped:
        return int(stopped.code or 0)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", GIVEN)
def test_what_is_no_file_is_said(
    site: Path, capsys: pytest.CaptureFixture[str], name: str, kind: str
) -> None:
    """The command ends with a sentence; it neither waits nor breaks, and the book stays."""
    before = (site / "small.book").read_bytes()
    if name == "office take" and kind in ("folder", "no name"):
        pytest.skip("folders are looked into there")
    code = run(GIVEN[name], site, bad_path(site, kind))
    told = capsys.readouterr()

    is_one_of_many = name == BESIDE_OTHERS[0] and kind in BESIDE_OTHERS[1]
    assert code == (STOPS if is_one_of_many else BAD_INPUT)
    assert told.err.strip() or "cut short" in told.out
    assert (site / "small.book").read_bytes() == before


@pytest.mark.parametrize("kind", ["pipe", "device", "socket", "long name"])
@pytest.mark.parametrize("name", GIVEN_OUT)
def test_what_can_not_be_written_into_is_said(
    site: Path, capsys: pytest.CaptureFixture[str], name: str, kind: str
) -> None:
    """What is to be written goes neither into a pipe nor to a name that no disk bears."""
    bad = bad_path(site, kind)

    assert run(GIVEN_OUT[name], site, bad) == BAD_INPUT
    assert "crewapp: " in capsys.readouterr().err
    assert kind == "long name" or not stat.S_ISREG(os.stat(bad).st_mode)


# A hand-over is made by the tablet that wrote the book, and nobody else is one.
@pytest.mark.parametrize("name", [name for name in GIVEN_OUT if name != "handover make"])
def test_folder_that_may_not_be_written_to_is_said(
    site: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    """A folder on a stick that is locked gives a sentence, and nothing half-written."""
    if name != "demo":  # all it needs is loaded before it acts as a user who can't read it
        assert run(GIVEN_OUT[name], site, str(site / "fine")) == 0
    locked = site / "locked"
    locked.mkdir(mode=0o555)
    for parent in (site, *site.parents[:4]):
        parent.chmod(0o777 if parent in (site, site.parent) else 0o755)
    shutil.rmtree(site.parent / "home", ignore_errors=True)
    with being_nobody():
        code = run(GIVEN_OUT[name], site, str(locked / "new"))

    assert code == BAD_INPUT
    assert "crewapp: " in capsys.readouterr().err
    assert list(locked.iterdir()) == []


def test_book_may_be_called_by_any_bytes(site: Path) -> None:
    """A name that is no text still names a book: the job takes what can be read of it."""
    name = os.fsdecode(b"half\xff.book")

    assert main(["plan", name, str(PLAN)]) == 0
    assert main(["check", name]) == 0
