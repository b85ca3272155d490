"""A person could do it: real clicks on a real X window, and a kill in the middle of the day."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from crewapp.commands.demo import make_demo
from crewapp.tablet import Settings, Tablet
from models.book.store import Book

pytestmark = pytest.mark.skipif(
    not os.environ.get("DISPLAY"), reason="no X server: DISPLAY is not set"
)
ROOT = Path(__file__).parents[2]
PATIENCE_S = 60.0
CHIP = "120.0"  # the length planned for the next pass of the field
DPI = 149

# Starts the app as ``python -m crewapp`` does; says which page came to the front, where on the
# glass a key of the words asked for is, and when an action was inked.
WATCHED = """
import sys, threading
from crewapp import cli
from crewapp.commands.open import settle_kivy
settle_kivy()
from kivy.config import Config
Config.set("graphics", "width", "1280")
Config.set("graphics", "height", "800")
from kivy.clock import Clock
from kivy.core.window import Window
from crewapp.screens import shell
from crewapp.widgets.touchable import Touchable

go, inked, shown = shell.Shell.go, shell.Shell._show_inked, []

def watched_go(self, name, **asked):
    shown[:] = [self]
    page = go(self, name, **asked)
    Clock.schedule_once(lambda _: print("page", name, flush=True), 0.3)
    return page

def watched_inked(self, face):
    inked(self, face)
    print("inked", face.text, flush=True)

def answer():
    for line in sys.stdin:
        Clock.schedule_once(lambda _, text=line.strip(): tell(text), 0)

def tell(text):
    if not shown:
        print("at none", flush=True)
        return
    for w in shown[0].walk():
        if isinstance(w, Touchable) and text in (w.text, getattr(w, "name", "")):
            x, y = w.to_window(*w.center)
            print("at", int(x), int(Window.height - y), flush=True)
            return
    print("at none", flush=True)

shell.Shell.go, shell.Shell._show_inked = watched_go, watched_inked
threading.Thread(target=answer, daemon=True).start()
cli.main([])
"""


class RealApp:
    """The app in a process of its own, a window on the screen, and a mouse."""

    def __init__(self, home: Path) -> None:
        script = home / "start.py"
        script.write_text(WATCHED, encoding="utf-8")
        env = os.environ | {"CREWAPP_HOME": str(home), "KIVY_HOME": str(home / "kivy")}
        env |= {"SDL_VIDEODRIVER": "x11", "PYTHONPATH": str(ROOT), "KIVY_DPI": str(DPI)}
        env |= {"KIVY_METRICS_DENSITY": "1", "KIVY_METRICS_FONTSCALE": "1"}
        for name in ("KIVY_NO_CONFIG", "KIVY_NO_ENV_CONFIG"):
            env.pop(name, None)
        self.process = subprocess.Popen(
            [sys.executable, str(script)],
            env=env,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self.heard("page today")
        found = xdotool("search", "--sync", "--onlyvisible", "--pid", str(self.process.pid))
        self.window = found.split()[-1]
        xdotool("windowfocus", "--sync", self.window)
        time.sleep(0.1)  # SDL drops a click in the moment after the focus came

    def heard(self, start: str) -> str:
        """Wait for a line that begins so; return it."""
        assert self.process.stdout is not None
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            line = self.process.stdout.readline().strip()
            if line.startswith(start):
                return line
            assert line or self.process.poll() is None, "the app ended"
        raise AssertionError(f"never said {start!r}")

    def place_of(self, text: str) -> tuple[str, str]:
        """Ask where on the glass a key bears these words; wait until it does."""
        assert self.process.stdin is not None
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            self.process.stdin.write(f"{text}\n")
            self.process.stdin.flush()
            told = self.heard("at ").split()
            if told[1] != "none":
                return told[1], told[2]
            time.sleep(0.1)
        raise AssertionError(f"nothing bears {text!r}")

    def click(self, text: str) -> None:
        """Click on what bears these words."""
        x, y = self.place_of(text)
        xdotool("mousemove", "--window", self.window, x, y)
        xdotool("mousedown", "1", "sleep", "0.06", "mouseup", "1")

    def kill(self) -> None:
        """Take the process away, as a dead battery would."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        for pipe in (self.process.stdin, self.process.stdout):
            if pipe is not None:
                pipe.close()


def xdotool(*words: str) -> str:
    """Run xdotool; return what it printed."""
    done = subprocess.run(["xdotool", *words], capture_output=True, text=True, check=True)
    return done.stdout


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[[], RealApp]]:
    """Start the app on the demo's book, as often as a test wants."""
    home = tmp_path / "home"
    book = make_demo(home / "demo", quiet=True)["book"]
    Tablet(home).keep_settings(Settings(author="Wren", last_book=book))
    running: list[RealApp] = []

    def begin() -> RealApp:
        running.append(RealApp(home))
        return running[-1]

    yield begin
    for app in running:
        app.kill()


def count(home: Path) -> int:
    """Return how many entries the demo's book has."""
    with Book.open(home / "demo" / "larkfield.book", read_only=True) as book:
        return book.count()


def test_pages_are_one_click_apart(start: Callable[[], RealApp]) -> None:
    """Today, Pass, Flags and back, by clicks on the tabs."""
    app = start()
    for text, page in (("Pass", "pass"), ("Flags", "flags"), ("Today", "today")):
        app.click(text)
        assert app.heard("page") == f"page {page}"


def test_entry_clicked_survives_a_kill(start: Callable[[], RealApp], tmp_path: Path) -> None:
    """The next pass by one click on its length: inked, killed, and in the book."""
    home = tmp_path / "home"
    before = count(home)
    app = start()
    app.click("Pass")
    app.heard("page pass")
    app.click(CHIP)
    app.heard("inked")
    app.kill()
    assert count(home) == before + 1
    with Book.open(home / "demo" / "larkfield.book", read_only=True) as book:
        row = book.newest("pass")
    assert row is not None
    assert row.author == "Wren"
    again = start()
    again.click("Today")

    assert again.heard("page") == "page today"
    assert count(home) == before + 1
