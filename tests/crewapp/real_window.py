"""A window of the app on an X screen of its own, in a process of its own, and a mouse over it."""

from __future__ import annotations

import json
import os
import queue
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
PATIENCE_S = 30.0
DPI = 149
WIDE_PX, HIGH_PX = 1280, 800
NO_SCREEN = "no X server (Xvfb), or no hand for it (xdotool)"
HAS_SCREEN = bool(shutil.which("Xvfb") and shutil.which("xdotool"))
BESIDE_PX = 100  # room on the screen beside the window
PRESS_S = "0.06"  # how long a hand holds a button down


class RealWindow:
    """Runs ``python -m MODULE``, which tells what happens on its output, a line a thing.

    The hand never jumps: from key to key the pointer goes over all that lies between.
    """

    def __init__(self, module: str, home: Path, first: str) -> None:
        self._held = ExitStack()
        self.display = self._held.enter_context(x_screen())[1]
        env = os.environ | {
            "DISPLAY": self.display,
            "CREWAPP_HOME": str(home),
            "KIVY_HOME": str(home / "kivy"),
        }
        env |= {"SDL_VIDEODRIVER": "x11", "PYTHONPATH": str(ROOT), "KIVY_DPI": str(DPI)}
        env |= {"KIVY_METRICS_DENSITY": "1", "KIVY_METRICS_FONTSCALE": "1"}
        for name in ("KIVY_NO_CONFIG", "KIVY_NO_ENV_CONFIG"):
            env.pop(name, None)
        self.process = subprocess.Popen(
            [sys.executable, "-m", module],
            env=env,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self._told: queue.Queue[str] = queue.Queue()
        self._answers: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._listen, daemon=True).start()
        self.at = (WIDE_PX // 2, HIGH_PX // 2)
        self.heard(first)
        found = self.xdotool("search", "--sync", "--onlyvisible", "--pid", str(self.process.pid))
        self.window = found.split()[-1]
        self.xdotool("windowfocus", "--sync", self.window)
        time.sleep(0.1)  # SDL drops a click in the moment after the focus came

    def heard(self, start: str) -> str:
        """Wait for a line that begins so; return it."""
        met = list[str]()
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            try:
                line = self._told.get(timeout=1.0)
            except queue.Empty:
                assert self.process.poll() is None, f"the app ended; it said {met}"
                continue
            if line.startswith(start):
                return line
            met.append(line)
        raise AssertionError(f"never said {start!r} but {met}")

    def _listen(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            word, _, rest = line.strip().partition(" ")
            if word == "answer":
                self._answers.put(rest)
            else:
                self._told.put(line.strip())

    def ask(self, word: str, text: str = "") -> Any:
        """Ask the app one thing; return what it answers."""
        assert self.process.stdin is not None
        self.process.stdin.write(json.dumps([word, text]) + "\n")
        self.process.stdin.flush()
        return json.loads(self._answers.get(timeout=PATIENCE_S))

    def place_of(self, text: str) -> tuple[int, int]:
        """Ask where on the glass a thing bears these words; wait until one does."""
        end = time.monotonic() + PATIENCE_S
        while time.monotonic() < end:
            place = self.ask("at", text)
            if place is not None:
                return int(place[0]), int(place[1])
            time.sleep(0.1)
        raise AssertionError(f"nothing bears {text!r}")

    def glide(self, x: int, y: int, pause_s: str = "0.004") -> list[str]:
        """Return the moves of a hand from where it is to a place."""
        (left, top), steps, moves = self.at, 6, list[str]()
        for step in range(1, steps + 1):
            here = left + (x - left) * step // steps, top + (y - top) * step // steps
            moves += ["mousemove", "--window", self.window, str(here[0]), str(here[1])]
            moves += ["sleep", pause_s]
        self.at = (x, y)
        return moves

    def hover(self, text: str) -> None:
        """Move the pointer over something, without a press."""
        self.xdotool(*self.glide(*self.place_of(text)))

    def click(self, text: str, button: int = 1) -> None:
        """Click on what bears these words."""
        moves = self.glide(*self.place_of(text))
        press = ["mousedown", str(button), "sleep", PRESS_S, "mouseup", str(button)]
        self._do([*moves, *press], 0 if button in (2, 3) else 1)

    def hold(self, text: str, seconds: float) -> None:
        """Press what bears these words for so long, with a hand that is never quite still."""
        x, y = self.place_of(text)
        press = [*self.glide(x, y), "mousedown", "1", "sleep", str(seconds / 2)]
        self._do([*press, *self.glide(x + 2, y + 1), "sleep", str(seconds / 2), "mouseup", "1"], 1)

    def drag(self, text: str, *ways: tuple[int, int]) -> None:
        """Press in the middle of something and pull the pointer along, way after way."""
        x, y = self.place_of(text)
        words = [*self.glide(x, y), "mousedown", "1", "sleep", PRESS_S]
        for right, down in ways:
            x, y = x + right, y + down
            words += self.glide(x, y, "0.03")
        self._do([*words, "sleep", PRESS_S, "mouseup", "1"], 1)

    def wheel(self, text: str, notches: int) -> None:
        """Turn the wheel over something, away from the hand or, below 0, towards it."""
        turns = ["click", "4" if notches > 0 else "5", "sleep", "0.03"] * abs(notches)
        self._do([*self.glide(*self.place_of(text)), *turns], abs(notches))

    def _do(self, words: list[str], presses: int) -> None:
        """Move the mouse, then wait until the app has taken in the end of every press."""
        before = self.ask("ends")
        self.xdotool(*words)
        end = time.monotonic() + PATIENCE_S
        while self.ask("ends") < before + presses:
            assert time.monotonic() < end, "a press never ended"

    def type(self, text: str) -> None:
        """Type on the keyboard."""
        self.xdotool("type", "--delay", "20", text)

    def xdotool(self, *words: str) -> str:
        """Run xdotool on this screen; return what it printed."""
        env = os.environ | {"DISPLAY": self.display}
        return subprocess.run(
            ["xdotool", *words], env=env, capture_output=True, text=True, check=True
        ).stdout

    def kill(self) -> None:
        """Take the process away, as a dead battery would, and its screen."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        for pipe in (self.process.stdin, self.process.stdout):
            if pipe is not None:
                pipe.close()
        self._held.close()


@contextmanager
def x_screen(*words: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Run an X server that nobody sees; give it and its name. No other hand moves its mouse."""
    size = f"{WIDE_PX + BESIDE_PX}x{HIGH_PX + BESIDE_PX}x24"
    screen = subprocess.Popen(
        ["Xvfb", "-displayfd", "1", "-screen", "0", size, "-nolisten", "tcp", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    try:
        assert screen.stdout is not None
        with screen.stdout as told:
            yield screen, f":{told.readline().strip()}"
    finally:
        screen.terminate()
        screen.wait()
