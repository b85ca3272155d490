"""Every screen of the app as a picture: for looking at, and for the README.

Run by ``crewapp pictures``, one process a tablet:
``python -m crewapp.screenshots.screenshots BOOK OUT NAME WIDTHxHEIGHT HOME LANGUAGE``; with
``readme`` behind it only the screens that README shows, each with the list of what is on it.
"""

from __future__ import annotations

import json
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from crewapp.screenshots.drawn_facts import write_facts
from crewapp.tablet.settings import Settings, Tablet

MORNING_MIN = 10 * 60
FRAMES, ROUNDS = 4, 6


def main(argv: list[str]) -> None:
    """Draw and name every picture."""
    book, out, name, size, home, language, *only = argv
    tablet = Tablet(Path(home))
    tablet.keep_settings(Settings(author="Wren", language=language))
    _settle(*(int(side) for side in size.split("x")))
    tablet.books.mkdir(parents=True, exist_ok=True)
    own = tablet.books / Path(book).name
    shutil.copyfile(book, own)
    app = _start(tablet, own)
    is_readme = only == ["readme"]
    for screen in readme_screens(app) if is_readme else screens(app):
        path = Path(out) / (f"{screen}.png" if is_readme else f"{screen}-{name}.png")
        app.shell.export_to_png(str(path))
        if is_readme:
            from crewapp.screenshots.picture_facts import facts_of  # Kivy is up by now

            write_facts(path.with_suffix(".facts.json"), facts_of(app.shell))
        print(path, flush=True)
    app.worker.close()


README_SCREENS: dict[str, dict[str, str]] = {
    "grade": {},
    "pass": {"surface_id": "F2", "pass_id": "F2-11"},
    "plan": {},
}
"""Pages that README shows, with what they are asked to show of the demo's book."""


def readme_screens(app: Any) -> Iterator[str]:
    """Bring the pages that README shows to the front; give their names."""
    for place, asked in README_SCREENS.items():
        app.shell.go(place, **asked)
        pump(app)
        yield place


def screens(app: Any) -> Iterator[str]:
    """Bring every page and every part that has a view to the front; give their names."""
    from crewapp.pages.frame.page_list import PLACES
    from crewapp.pages.frame.parted_page import PartedPage

    for place in PLACES:
        page = app.shell.go(place)
        pump(app)
        yield place
        if isinstance(page, PartedPage):
            shown = page.part_name()
            for part in page.parts:
                page.turn_to(part)
                pump(app)
                if part != shown and page.part_name() == part and page.sheet is None:
                    yield f"{place}-{part}"
            page.turn_to(shown)
    app.shell.go("today")
    app.shell.lock()
    pump(app)
    yield "rain"


def pump(app: Any) -> None:
    """Let the worker answer and the page be laid out."""
    from kivy.base import EventLoop

    for _ in range(ROUNDS):
        app.worker.wait()
        for _ in range(FRAMES):
            EventLoop.idle()


def _settle(wide_px: int, high_px: int) -> None:
    """Set the window's size; real input is taken away."""
    from kivy.config import Config

    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "width", str(wide_px))
    Config.set("graphics", "height", str(high_px))
    for name, _ in Config.items("input"):
        Config.remove_option("input", name)


def _start(tablet: Tablet, book: Path) -> Any:
    """Start the app in the window, on the book's own last day."""
    from kivy.base import EventLoop
    from kivy.clock import Clock
    from kivy.core.window import Window
    from kivy.graphics import Color, Rectangle

    from crewapp.app import CrewApp, deliver
    from crewapp.pages.frame.worker import JobWorker

    EventLoop.ensure_window()
    EventLoop.start()
    Clock._max_fps = 0  # no picture waits for a screen to be ready
    app = CrewApp(tablet, book, JobWorker(deliver, _clock_of(book)))
    shell = app.build()
    Window.add_widget(shell)
    shell.size = Window.size
    with shell.canvas.before:  # the window's own white: a picture has no ground behind it
        Color(*Window.clearcolor)
        Rectangle(size=shell.size)
    pump(app)
    app._after_first_frame()
    pump(app)
    return app


def _clock_of(book: Path) -> Any:
    """A clock that stands in the morning of the last day that was worked in a book."""
    from crewapp.tablet.clock import SetClock, TabletClock
    from models.book.store import Book

    with Book.open(book, read_only=True) as opened:
        row = opened.newest("pass")
        job = opened.newest("job")
        if row is None or job is None:
            return TabletClock()
        last = max(opened.rows(), key=lambda one: one.at_ms)
    zone = json.loads(job.raw)["body"]["zone"]
    clock = SetClock(zone, 0)
    clock.set_to(last.day, MORNING_MIN)
    clock.at_ms = max(clock.at_ms, last.at_ms)
    return clock


if __name__ == "__main__":
    main(sys.argv[1:])
