"""``crewapp`` without a command, or with a book alone: open the app."""

from __future__ import annotations

import argparse
from pathlib import Path

from crewapp.cli.books import BookMissingError
from crewapp.cli.example import Example
from crewapp.device.display import Display, find_display
from crewapp.device.opening import CtrlC, FirstFrame, open_window
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import translate_later
from models.book.store import Book

EXAMPLES = (
    Example("crewapp", translate_later("The app, on the last book")),
    Example("crewapp larkfield.book", translate_later("The app on this book")),
)


def run(args: argparse.Namespace) -> int:
    """Open the app on the book named, or on the last one."""
    if args.book is not None:
        _need_book(args.book)
    with find_display() as display:
        return open_app(args.book, display)


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


def open_app(book: Path | None, display: Display) -> int:
    """Open the window; returns when it is closed.

    Raises
    ------
    NoDisplayError
        If no window came on the display.
    KeyboardInterrupt
        If Ctrl-C stopped it; what was sent to the worker is done.
    """
    with CtrlC() as ctrl_c, FirstFrame(display.driver) as first_frame:
        window = open_window(display.driver)
        from kivy.base import EventLoop
        from kivy.clock import Clock

        from crewapp.app import CrewApp

        app = CrewApp(Tablet.of_user(), book)
        first_frame.leave = app.worker.close

        def came(*_: object) -> None:
            window.unbind(on_flip=came)
            first_frame.end_wait()
            display.let_go()

        window.bind(on_flip=came)
        try:
            ctrl_c.stop_with(lambda: setattr(EventLoop, "quit", True))
            # Kivy's loop forgets what it was told before it began.
            Clock.schedule_once(lambda _: setattr(EventLoop, "quit", ctrl_c.is_pressed))
            app.run()
        finally:
            app.worker.close()
    return 0
