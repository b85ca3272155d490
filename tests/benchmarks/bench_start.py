"""How soon the app shows something, beside a Kivy app of one label; and how it draws.

The starts are taken in turn, one of each kind a round, so that a machine that is slow for a
while is slow for both. Offscreen, ``multisamples`` 0, compiled files warm.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.demo import make_demo
from crewapp.tablet.settings import Settings, Tablet

ROUNDS = 7
ROOT = Path(__file__).parents[2]

BARE = """
import os, time
from crewapp.device.opening import settle_kivy
settle_kivy()
from kivy.app import App
from kivy.core.window import Window
from kivy.uix.label import Label

class Bare(App):
    def build(self):
        Window.bind(on_flip=seen)
        return Label(text="one label")

def seen(*_):
    print("frame", time.monotonic(), flush=True)
    os._exit(0)

Bare().run()
"""

APP = """
import os, time
from crewapp.cli import main as cli
from crewapp.device.opening import settle_kivy
settle_kivy()
from crewapp.app import CrewApp
from crewapp.pages.today.page import TodayPage

first, show = CrewApp._on_first_flip, TodayPage.show

def _on_first_flip(app, *_):
    print("frame", time.monotonic(), flush=True)
    first(app)

def shown(page, face):
    show(page, face)
    if face.is_live:
        print("live", time.monotonic(), flush=True)
        os._exit(0)

CrewApp._on_first_flip, TodayPage.show = _on_first_flip, shown
cli.main([])
"""


def begin(code: str, home: Path) -> dict[str, float]:
    """Start a Python on some code; return the seconds from its start to what it reports."""
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    env |= {"SDL_VIDEODRIVER": "offscreen", "KIVY_HOME": str(home / "kivy")}
    env |= {"CREWAPP_HOME": str(home)}
    script = home / "start.py"  # Kivy looks for the file that an app is written in
    script.write_text(code, encoding="utf-8")
    env["PYTHONPATH"] = str(ROOT)
    start = time.monotonic()
    done = subprocess.run(
        [sys.executable, str(script)], env=env, cwd=ROOT, capture_output=True, text=True, check=True
    )
    told = [line.split() for line in done.stdout.splitlines()]
    return {name: float(at) - start for name, at in told}


class Replay:
    """A timer that goes forward by times measured before, one a call of ``next``."""

    def __init__(self, times: list[float]) -> None:
        self._times, self._now = iter(times), 0.0

    def __call__(self) -> float:
        """Return the time it stands at."""
        return self._now

    def next(self) -> None:
        """Let the next of the measured times go by."""
        self._now += next(self._times)


@pytest.fixture(scope="module")
def starts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[float]]:
    """Seconds from the start of the process, some rounds of each kind in turn."""
    home = tmp_path_factory.mktemp("home")
    book = make_demo(home / "demo", quiet=True)["book"]
    Tablet(home).keep_settings(Settings(last_book=book))
    begin(BARE, home)
    begin(APP, home)  # leaves today.json, as yesterday's work would
    times: dict[str, list[float]] = {"bare": [], "frame": [], "live": []}
    for _ in range(ROUNDS):
        times["bare"].append(begin(BARE, home)["frame"])
        told = begin(APP, home)
        times["frame"].append(told["frame"])
        times["live"].append(told["live"])
    return times


def replay(benchmark: Any, times: list[float]) -> None:
    """Hand measured times to the table of results."""
    clock = Replay(times)
    benchmark._timer = clock
    benchmark.pedantic(clock.next, rounds=len(times), iterations=1)


def test_bare_label(benchmark: Any, starts: dict[str, list[float]]) -> None:
    """A Kivy app of one label: from the start of the process to its first frame."""
    replay(benchmark, starts["bare"])


@pytest.mark.ratio(to="test_bare_label", at_most=2.0)
def test_first_frame(benchmark: Any, starts: dict[str, list[float]]) -> None:
    """The app: to its first frame, with Today as it was last known."""
    replay(benchmark, starts["frame"])


@pytest.mark.ratio(to="test_bare_label", at_most=4.0)
def test_live_today(benchmark: Any, starts: dict[str, list[float]]) -> None:
    """The app: to Today as the book has it, the demo of three days."""
    replay(benchmark, starts["live"])
