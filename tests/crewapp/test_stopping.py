"""Ctrl-C at any moment: a sentence, exit 130, and every file whole, as it was, or not there."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from crewapp.demo.folder import BOOK
from models.book.store import Book
from tests.crewapp.real_window import ROOT
from tests.in_full import IN_FULL

TOLD = "crewapp: Stopped. What was inked stands; no file was left half-written.\n"
# What a reader of the shared demo keeps beside a book while it reads.
BESIDE = shutil.ignore_patterns("*-shm", "*-wal")
# Presses Ctrl-C so many seconds after the command began; one that ended before is as good.
PRESSED = """
import os, signal, sys, threading
from crewapp.cli import main as cli
press = threading.Timer(float(sys.argv[1]), lambda: os.kill(os.getpid(), signal.SIGINT))
press.daemon = True
press.start()
code = cli.main(sys.argv[2:])
press.cancel()
sys.stdout.flush()
os._exit(code)
"""
# Opens the app unseen, and says when its book is open; Settings has what is written into.
OPENED = """
import sys
from crewapp.cli import main as cli
from crewapp.pages.frame import shell
keep = shell.Shell._keep_last_book
def kept(self, path):
    keep(self, path)
    self.go("settings")
    print("open", flush=True)
shell.Shell._keep_last_book = kept
sys.exit(cli.main([]))
"""


# Presses Ctrl-C when the app has been made and Kivy's loop has not begun.
BEFORE_THE_LOOP = """
import os, signal, sys
from crewapp.cli import main as cli
from kivy.base import EventLoop
begin = EventLoop.start
def pressed():
    os.kill(os.getpid(), signal.SIGINT)
    begin()
EventLoop.start = pressed
sys.exit(cli.main([]))
"""


def surroundings(home: Path) -> dict[str, str]:
    """Return the environment of a tablet of its own, its window unseen."""
    own = {"CREWAPP_HOME": str(home), "KIVY_HOME": str(home / "kivy"), "KIVY_NO_ARGS": "1"}
    return os.environ | own | {"PYTHONPATH": str(ROOT), "SDL_VIDEODRIVER": "offscreen"}


@contextmanager
def running(home: Path, *words: str) -> Iterator[subprocess.Popen[str]]:
    """Run Python with these words; it is taken away at the end."""
    process = subprocess.Popen(
        [sys.executable, *words],
        env=surroundings(home),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def stopped_at(process: subprocess.Popen[str], start: str) -> tuple[int, str]:
    """Press Ctrl-C at the first line that begins so; return the exit code and what was said."""
    assert process.stdout is not None
    for line in process.stdout:
        if line.startswith(start):
            process.send_signal(signal.SIGINT)
            break
    return ended(process)


def ended(process: subprocess.Popen[str]) -> tuple[int, str]:
    """Wait for the end; return the exit code as a shell shows it, and what was said on stderr.

    Where Ctrl-C met a text being run as code, Python ends by the signal even though the
    interrupt was caught; a shell shows 130 for both.
    """
    said = process.communicate(timeout=120)[1]
    code = process.returncode
    return (code if code >= 0 else 128 - code), said


def content(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.mark.parametrize("moment", ["Book ", *(["2026-05-13"] if IN_FULL else []), "  as built"])
def test_demo_stopped_leaves_what_was_there(demo_folder: Path, tmp_path: Path, moment: str) -> None:
    """At the first and the last moment of its making, over an earlier one: that stands, whole."""
    demo = Path(shutil.copytree(demo_folder, tmp_path / "out" / "demo", ignore=BESIDE))
    before = content(demo)
    words = ("-u", "-m", "crewapp", "demo", "--out", str(demo))
    with running(tmp_path / "home", *words) as process:
        assert stopped_at(process, moment) == (130, TOLD)

    assert content(demo) == before
    assert [path.name for path in demo.parent.iterdir()] == ["demo"]


def test_demo_stopped_at_first_is_not_there(tmp_path: Path) -> None:
    """Into a new folder: there is none afterwards, nor a part of one."""
    out = tmp_path / "out" / "demo"
    with running(tmp_path / "home", "-u", "-m", "crewapp", "demo", "--out", str(out)) as process:
        assert stopped_at(process, "2026-05-11") == (130, TOLD)

    assert not out.parent.exists()


@pytest.mark.parametrize(
    "moment", ["  1 of", *(["  5 of"] if IN_FULL else []), "  12 of", "As built"]
)
def test_as_built_stopped_is_whole_or_as_it_was(
    demo_folder: Path, tmp_path: Path, moment: str
) -> None:
    """While it is written nothing is there; once it is told, all of it is, with its list."""
    out = tmp_path / "record"
    words = ("-u", "-m", "crewapp", "asbuilt", str(demo_folder / BOOK), "--out", str(out))
    with running(tmp_path / "home", *words) as process:
        code, said = stopped_at(process, moment)
    if moment == "As built" and not said:
        assert code in {0, 130}  # it had ended, or Python was taking itself down
    else:
        assert (code, said) == (130, TOLD)
    assert out.exists() == (moment == "As built")
    assert not out.exists() or (out / "contents.txt").exists()
    assert {path.name for path in tmp_path.iterdir()} <= {"record", "home"}


@pytest.mark.parametrize("moment", range(1, 11))
def test_no_moment_shows_a_traceback(demo_folder: Path, tmp_path: Path, moment: int) -> None:
    """Ten moments from the first on: the sentence alone, or the command had ended."""
    words = ("-c", PRESSED, str(moment / 20), "check", str(demo_folder / BOOK), "--json")
    with running(tmp_path, *words) as process:
        assert ended(process) in {(130, TOLD), (0, ""), (1, "")}


def test_app_stopped_lets_go_of_its_book(demo_folder: Path, tmp_path: Path) -> None:
    """The window closes by itself, the book is let go, and nothing is printed but the sentence."""
    home = tmp_path / "home"
    book = home / "books" / BOOK
    book.parent.mkdir(parents=True)
    with Book.open(demo_folder / BOOK, read_only=True) as made:
        made.backup(book)
    (home / "settings.json").write_text(f'{{"author": "Wren", "last_book": "{book}"}}')
    with running(home, "-c", OPENED) as process:
        code, said = stopped_at(process, "open")

    assert (code, said) == (130, TOLD)
    with Book.open(book, stream="b") as opened:
        assert opened.read_only_reason is None


@pytest.mark.parametrize("tenths", range(1, 20, 4))
def test_app_stopped_while_it_starts(tmp_path: Path, tenths: int) -> None:
    """Before and about the first frame: the sentence, and no traceback."""
    with running(tmp_path, "-c", PRESSED, str(tenths / 10)) as process:
        code, said = ended(process)

    assert (code, said.splitlines()[-1:]) == (130, TOLD.splitlines())
    assert "Traceback" not in said


def test_ctrl_c_before_the_loop_begins_is_not_forgotten(tmp_path: Path) -> None:
    """Kivy's loop begins as if it had never been told to end."""
    with running(tmp_path, "-c", BEFORE_THE_LOOP) as process:
        assert ended(process) == (130, TOLD)


def test_ctrl_c_that_python_lost_stops_the_app() -> None:
    """Raised while a reference is cleaned up it reaches nobody; it is noted all the same."""
    code = """
import os, signal, sys, weakref
from crewapp.device.interrupts import remember_interrupts, was_interrupted
class Thing: pass
thing = Thing()
lost = weakref.ref(thing, lambda _: os.kill(os.getpid(), signal.SIGINT) or [0] * 9)
remember_interrupts()
del thing
from crewapp.device.opening import CtrlC
sys.exit(0 if was_interrupted() and CtrlC().is_pressed else 1)
"""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("hundredths", [2, 5, 8, 11, 14, 17])
def test_ctrl_c_while_the_program_is_loaded_says_nothing(tmp_path: Path, hundredths: int) -> None:
    """Where nothing is begun yet, there is nothing to tell, least of all where in an import."""
    code = f"""
import os, signal, sys, threading
press = threading.Timer({hundredths} / 100, lambda: os.kill(os.getpid(), signal.SIGINT))
press.daemon = True
from crewapp.__main__ import main
press.start()
sys.argv = ["crewapp", "--version"]
raise SystemExit(main())
"""
    with running(tmp_path, "-c", code) as process:
        code_of_end, said = ended(process)

    assert code_of_end in {0, 130}
    assert said in {"", TOLD}
