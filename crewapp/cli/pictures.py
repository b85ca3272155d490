"""``crewapp pictures``: draws every screen of the app into picture files, unseen."""

from __future__ import annotations

import argparse
import json
import tempfile
from collections.abc import Iterator
from pathlib import Path

from crewapp.cli.demo import make_demo
from crewapp.cli.example import Example
from crewapp.cli.readme_pictures import draw_readme
from crewapp.demo.folder import BOOK
from crewapp.screenshots.window import GlassSize, draw_in_window
from crewapp.words.translate import translate_later
from models.book.store import Book
from models.counted import CountedNoun

EXAMPLES = (
    Example(
        "crewapp pictures --book larkfield.book --tablet 10in-coarse --out pictures",
        translate_later("Every screen on this book, on one tablet, both ways up"),
    ),
)


PROFILES = {"8in": (1920, 1200, 283), "10in-coarse": (1280, 800, 149)}
TURNS = {"landscape": False, "portrait": True}


def run(args: argparse.Namespace) -> int:
    """Draw every screen, both ways up, on two tablets."""
    args.out.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="crewapp-pictures-") as scratch:
        if args.readme:
            made = draw_readme(args.out, Path(scratch), args.language)
        else:
            made = list(_every_screen(args, Path(scratch)))
    if args.json:
        print(json.dumps({"pictures": [str(path) for path in made]}))
    else:
        print(f"{CountedNoun(len(made)):picture|pictures} in {args.out}")
    return 0


def _every_screen(args: argparse.Namespace, scratch: Path) -> Iterator[Path]:
    """Draw all screens on all tablets, or on the one asked for, each held both ways."""
    book = _copy_of(args.book, scratch)
    for profile in [args.tablet] if args.tablet else PROFILES:
        for turn in TURNS:
            if not args.json:
                print(f"{profile} held in {turn} ...", flush=True)
            yield from draw(book, args.out, profile, turn, scratch, args.language)


def draw(
    book: Path, out: Path, profile: str, turn: str, scratch: Path, language: str = "en"
) -> list[Path]:
    """Draw every screen on one tablet held one way; return the files.

    Raises
    ------
    NoPictureError
        If the process did not end well.
    """
    wide, high, dpi = PROFILES[profile]
    glass = GlassSize(*((high, wide) if TURNS[turn] else (wide, high)), dpi)
    return draw_in_window(book, out, f"{turn}-{profile}", glass, scratch, language)


def _copy_of(book: Path | None, scratch: Path) -> Path:
    """A copy of the book to look at, or a fresh demo: the pages write nothing into yours."""
    if book is None:
        make_demo(scratch / "demo", quiet=True)
        book = scratch / "demo" / BOOK
    copy = scratch / f"{book.stem}-shown.book"
    with Book.open(book, read_only=True) as opened:
        opened.backup(copy)
    return copy
