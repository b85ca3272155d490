"""The whole app on a tablet of its own, in a window that nobody sees, and a finger."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.demo.identity import steady_ids
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from crewapp.tablet.settings import Tablet
from models.book.store import Book
from tests.crewapp.conftest import DAY, plan_text
from tests.crewapp.planned_book import STREAM, ZONE, put_planned_book

if TYPE_CHECKING:
    from tests.uidriver import UI


def put_book(folder: Path, name: str = "small", **changed: Any) -> Path:
    """Write the book of the small job, planned for the day; some lists changed or left out."""
    told = {**json.loads(plan_text()), **changed}
    told = {key: value for key, value in told.items() if value is not None}
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.book"
    return put_planned_book(path, json.dumps(told), f"tests {path.name}")


def open_book(path: Path) -> OpenJob:
    """Open a book, or make it, with the clock at eight in the morning of the day."""
    clock = SetClock(ZONE, 0)
    clock.set_to(DAY, 8 * 60)
    opens = Book.open if path.exists() else Book.create
    book = opens(path, stream=STREAM, reserve_bytes=4096)
    return OpenJob(book, clock, author="foreman", new_id=steady_ids(clock, f"tests {path.name}"))


class AppDriver:
    """The app as it starts, on a tablet's folder; the first frame has been drawn."""

    def __init__(self, ui: UI, home: Path, book: Path | None = None) -> None:
        from kivy.core.window import Window

        from crewapp.app import CrewApp, deliver
        from crewapp.pages.frame.worker import JobWorker

        self.ui, self.clock = ui, SetClock(ZONE, 0)
        self.clock.set_to(DAY, 9 * 60)
        self.worker = JobWorker(deliver, self.clock)
        self.app = CrewApp(Tablet(home), book, self.worker)
        self.shell = self.app.build()
        self.shell.size = Window.size
        ui.show(self.shell)

    def start(self) -> AppDriver:
        """Go on after the first frame."""
        self.app._after_first_frame()
        self.settle()
        return self

    def settle(self) -> None:
        """Wait until the worker has answered and all is laid out."""
        for _ in range(4):
            self.worker.wait()
            self.ui.pump(3)

    @property
    def page(self) -> Any:
        """The page in front."""
        return self.shell.page

    @property
    def banner(self) -> str:
        """What the banner says, or nothing."""
        banner = self.shell.banner
        return f"{banner.title}: {banner.text}" if banner.parent is self.shell else ""

    def tap(self, text: str, again: int = 0) -> None:
        """Tap what bears these words; of several, the one counted by ``again``."""
        self.tap_on(self.bearers(text)[again])

    def tap_on(self, widget: Any) -> None:
        """Tap a widget and let the worker answer."""
        self.ui.tap(widget)
        self.worker.wait()  # what the tap asked for is of its own time
        self.clock.pass_seconds(1)
        self.settle()

    def bearers(self, text: str) -> list[Any]:
        """Return the touchables that bear these words."""
        from crewapp.kit.keys.touchable import Touchable

        found = [w for w in self.shell.walk() if isinstance(w, Touchable) and text in bears(w)]
        assert found, f"nothing bears {text!r}: {self.words()}"
        return found

    def words(self) -> list[str]:
        """Return all words on the glass."""
        from crewapp.kit.text.label import TextLabel

        return [w.text for w in self.shell.walk() if isinstance(w, TextLabel) and w.text]

    def key(self, digits: str) -> None:
        """Type digits on the pad that is up, then Enter."""
        for digit in digits:
            self.ui.tap(self.page.sheet.pad.touches[digit])
            self.ui.wait(0.26)  # the same key sooner counts as a bounce
        self.ui.tap(self.page.sheet.pad.touches["enter"])
        self.settle()

    def close(self) -> None:
        """Let go of the book, as a kill would: nothing is asked of the pages."""
        from kivy.core.window import Window

        Window.unbind(on_keyboard=self.app._on_keyboard)
        self.worker.close()
        self.ui.close()


def bears(widget: Any) -> set[str]:
    """Return the words that a touchable may be known by."""
    return {widget.text, widget.note, getattr(widget, "title", ""), getattr(widget, "name", "")}
