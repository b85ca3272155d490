"""``crewapp`` without a command, or with a book alone: open the app."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from crewapp.commands.books import BookMissingError
from crewapp.commands.example import Example
from crewapp.tablet import Tablet
from crewapp.wording import later
from models.book.store import Book

EXAMPLES = (
    Example("crewapp", later("The app, on the last book")),
    Example("crewapp larkfield.book", later("The app on this book")),
)


def run(args: argparse.Namespace) -> int:
    """Open the app on the book named, or on the last one."""
    if args.book is not None:
        _need_book(args.book)
    return open_app(args.book)


def _need_book(path: Path) -> None:
    """A file that is no book is told of in the terminal, before there is a window.

    Raises
    ------
    BookMissingError
        If there is no such file.
    BookError
        If it is not a book.
    """
    if not path.exists():
        raise BookMissingError(path=path)
    Book.open(path, stream="", read_only=True).close()


def open_app(book: Path | None) -> int:
    """Open the window; returns when it is closed."""
    settle_kivy()
    from crewapp.app import CrewApp

    CrewApp(Tablet.here(), book).run()
    return 0


def settle_kivy() -> None:
    """Set what Kivy must know before any part of it is imported."""
    os.environ.setdefault("KIVY_NO_ARGS", "1")
    os.environ.setdefault("KIVY_NO_FILELOG", "1")
    os.environ.setdefault("KIVY_LOG_MODE", "PYTHON")
    # The other clipboards look for programs that may be missing.
    os.environ.setdefault("KIVY_CLIPBOARD", "sdl2")
    from kivy.config import Config

    # Multisampling costs a fifth of the start and halves the frame rate; the
    # interrupt clock hands a worker's answer over within a tenth of a millisecond.
    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "maxfps", "60")
    Config.set("kivy", "kivy_clock", "interrupt")
    Config.set("kivy", "exit_on_escape", "0")
    # No button of a mouse plays a second finger; and where a system makes a mouse of a finger
    # that is on the glass, the finger alone counts.
    Config.set("input", "mouse", "mouse,disable_multitouch,disable_on_activity")
