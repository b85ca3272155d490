"""The app starts fast: what is heavy is imported when it is first needed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

HEAVY = {"sqlalchemy", "pydantic", "fpdf", "uharfbuzz", "xlsxwriter", "plyer", "fontTools"}
HEAVY |= {"cryptography", "fsspec", "paramiko", "httpx", "s3fs", "botocore"}

# Starts the app on a book; tells in which order the first frame and the opening came, and
# what was loaded when the frame was on the glass.
FIRST_FRAME = """
import sys
from pathlib import Path
from kivy.clock import Clock
from kivy.core.window import Window
from crewapp.app import CrewApp
from crewapp.tablet.settings import Tablet

home = Path(sys.argv[1])
(home / "a.book").touch()
app = CrewApp(Tablet(home), book=home / "a.book")
said = []

def flip(*_):
    if "frame" not in said:
        said.extend(["frame", *{n.split(".")[0] for n in sys.modules}])
    if "opening" in said:
        print(*said)
        sys.stdout.flush()
        Clock.schedule_once(lambda _: app.stop(), 0)

app.worker.open = lambda *_, **__: said.append("opening")
Window.bind(on_flip=flip)
Clock.schedule_interval(lambda _: Window.canvas.ask_update(), 0)
app.run()
"""


def loaded_by(module: str, home: Path) -> set[str]:
    """Return the outside libraries that importing one module brings with it."""
    return set(run_code(f"import sys, {module}; print(*sys.modules)", home).split())


def run_code(code: str, home: Path) -> str:
    """Run code in a Python of its own, in a window that nobody sees; return what it printed."""
    quiet = {"KIVY_NO_ARGS": "1", "KIVY_LOG_MODE": "PYTHON", "KIVY_HOME": str(home)}
    done = subprocess.run(
        [sys.executable, "-c", code, str(home)],
        cwd=ROOT,
        env=os.environ | quiet | {"SDL_VIDEODRIVER": "offscreen"},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


@pytest.mark.parametrize("module", ["crewapp.cli.main", "crewapp.__main__", "crewapp.app"])
def test_nothing_heavy_is_loaded_on_the_way_in(module: str, tmp_path: Path) -> None:
    """Neither the command nor the app imports storage, models or sheets before it must."""
    assert loaded_by(module, tmp_path) & HEAVY == set()


def test_command_line_needs_no_window(tmp_path: Path) -> None:
    """A command of the office never waits for Kivy."""
    assert "kivy" not in loaded_by("crewapp.cli.main", tmp_path)


def test_book_is_opened_behind_the_first_frame(tmp_path: Path) -> None:
    """Today is on the glass before the book is asked for, and with nothing heavy loaded."""
    said = run_code(FIRST_FRAME, tmp_path).split()

    assert said[0] == "frame"
    assert set(said) & HEAVY == set()
