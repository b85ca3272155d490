"""``crewapp`` without a command: open the app."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from crewapp.tablet import Tablet


def run(args: argparse.Namespace) -> int:
    """Open the app on the book named, or on the last one."""
    return open_app(args.book)


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
