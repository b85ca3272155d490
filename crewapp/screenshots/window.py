"""Pages drawn in a window that nobody sees, by a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from crewapp.neighbours import HOME
from models.errors import CrewError
from sync.papers.paper_files import write_atomically


class NoPictureError(CrewError, RuntimeError):
    """The window that nobody sees could not be had, or fell over."""

    code = "pictures.none"
    sentence = (
        "The pictures for {tablet} were not drawn: {why}. A machine with libGL and libEGL "
        "can draw them, with or without a screen."
    )


@dataclass(frozen=True, slots=True)
class GlassSize:
    """The glass of a tablet as it is held: pixels across and down, and how many an inch."""

    wide: int
    high: int
    dpi: int


def draw_in_window(
    book: Path,
    out: Path,
    name: str,
    glass: GlassSize,
    scratch: Path,
    language: str = "en",
    *,
    only: str = "",
) -> list[Path]:
    """Draw every screen on a glass, or only README's; return the files.

    A process of its own: Kivy has one window, and its size is set before it is made.

    Raises
    ------
    NoPictureError
        If the process did not end well.
    """
    home = scratch / name
    drawn = home / "drawn"
    drawn.mkdir(parents=True)
    files = [str(book.absolute()), str(drawn.absolute())]
    named = [*files, name, f"{glass.wide}x{glass.high}", str(home), language]
    done = subprocess.run(
        [
            sys.executable,
            "-m",
            "crewapp.screenshots.screenshots",
            *named,
            *([only] if only else []),
        ],
        cwd=HOME,  # -m imports from the folder it starts in, which may hold another models.py
        env=os.environ | _surroundings(glass.dpi, scratch),
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        why = (done.stderr.strip() or f"the window ended with {done.returncode}").splitlines()[-1]
        raise NoPictureError(tablet=name, why=why)
    return [put_picture(Path(line), out) for line in done.stdout.splitlines()]


def put_picture(drawn: Path, out: Path) -> Path:
    """Put a picture into a folder, whole or not at all."""
    write_atomically(out / drawn.name, drawn.read_bytes())
    return out / drawn.name


def _surroundings(dpi: int, scratch: Path) -> dict[str, str]:
    return {
        "SDL_VIDEODRIVER": "offscreen",
        "KIVY_NO_ARGS": "1",
        "KIVY_NO_CONFIG": "1",
        "KIVY_NO_FILELOG": "1",
        "KIVY_LOG_MODE": "PYTHON",
        "KIVY_HOME": str(scratch / "kivy"),
        "KIVY_DPI": str(dpi),
        "KIVY_METRICS_DENSITY": "1",
        "KIVY_METRICS_FONTSCALE": "1",
    }
