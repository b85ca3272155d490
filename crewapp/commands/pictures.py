"""``crewapp pictures``: draws every screen of the app into picture files, unseen."""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

from crewapp.commands.demo import make_demo
from crewapp.commands.example import Example
from crewapp.demo.folder import BOOK
from crewapp.neighbours import HOME
from crewapp.wording import later
from models.book.store import Book
from models.errors import CrewError
from sync.sheets.day_sheet import put_whole

EXAMPLES = (
    Example(
        "crewapp pictures --book larkfield.book --out pictures",
        later("Every screen on this book, both ways up"),
    ),
)


PROFILES = {"8in": (1920, 1200, 283), "10in-coarse": (1280, 800, 149)}
TURNS = {"landscape": False, "portrait": True}


class NoPictureError(CrewError, RuntimeError):
    """The window that nobody sees could not be had, or fell over."""

    code = "pictures.none"
    sentence = (
        "The pictures for {tablet} were not drawn: {why}. A machine with libGL and libEGL "
        "can draw them, with or without a screen."
    )


def run(args: argparse.Namespace) -> int:
    """Draw every screen, both ways up, on two tablets."""
    args.out.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="crewapp-pictures-") as scratch:
        book = _copy_of(args.book, Path(scratch))
        made = []
        for profile in PROFILES:
            for turn in TURNS:
                if not args.json:
                    print(f"{profile} held in {turn} ...", flush=True)
                made += draw(book, args.out, profile, turn, Path(scratch), args.language)
    if args.json:
        print(json.dumps({"pictures": [str(path) for path in made]}))
    else:
        print(f"{len(made)} pictures in {args.out}")
    return 0


def draw(
    book: Path, out: Path, profile: str, turn: str, scratch: Path, language: str = "en"
) -> list[Path]:
    """Draw every screen on one tablet held one way; return the files.

    A process of its own: Kivy has one window, and its size is set before it is made.

    Raises
    ------
    NoPictureError
        If the process did not end well.
    """
    wide, high, dpi = PROFILES[profile]
    size = f"{high}x{wide}" if TURNS[turn] else f"{wide}x{high}"
    home = scratch / f"{profile}-{turn}"
    drawn = home / "drawn"
    drawn.mkdir(parents=True)
    files = [str(book.absolute()), str(drawn.absolute())]
    named = [*files, f"{turn}-{profile}", size, str(home), language]
    done = subprocess.run(
        [sys.executable, "-m", "crewapp.pictures", *named],
        cwd=HOME,  # -m imports from the folder it starts in, which may hold another models.py
        env=os.environ | _surroundings(dpi, scratch),
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        why = (done.stderr.strip() or f"the window ended with {done.returncode}").splitlines()[-1]
        raise NoPictureError(tablet=f"{profile} in {turn}", why=why)
    return [_put(Path(line), out) for line in done.stdout.splitlines()]


def _put(drawn: Path, out: Path) -> Path:
    """Put a picture into the folder asked for: whole, or not at all."""
    put_whole(out / drawn.name, drawn.read_bytes())
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


def _copy_of(book: Path | None, scratch: Path) -> Path:
    """A copy of the book to look at, or a fresh demo: the pages write nothing into yours."""
    if book is None:
        make_demo(scratch / "demo", quiet=True)
        book = scratch / "demo" / BOOK
    copy = scratch / f"{book.stem}-shown.book"
    with Book.open(book, read_only=True) as opened:
        opened.backup(copy)
    return copy
