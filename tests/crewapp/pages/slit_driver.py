"""A foreman's hand on the Pass and Loads pages: taps are counted, the book is read back."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from models.entries.envelope import AnyEntry, read_entry
from tests.crewapp.conftest import plan_text
from tests.crewapp.pages.frame_driver import AppDriver, put_book

if TYPE_CHECKING:
    from tests.uidriver import UI

FOOT_NM, INCH_NM = 304_800_000, 25_400_000


def put_slit_book(folder: Path) -> Path:
    """Write the book of the small job with a field of two-leg passes beside its green."""
    told = json.loads(plan_text())
    green = told["surface"][0]
    field = {
        **green,
        "surface_id": "F2",
        "name": "Lower field",
        "use": "field",
        "rectangle": {"along": "40 ft", "across": "8 ft"},
    }
    return put_book(folder, "slits", surface=[field, green])


@contextmanager
def at_work(
    ui: UI, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, page: str = "pass"
) -> Iterator[SlitDriver]:
    """Give the app on a tablet of its own, a page in front, nothing done yet."""
    monkeypatch.setenv("HOME", str(tmp_path))
    home = tmp_path / "home"
    opened = SlitDriver(ui, home, put_slit_book(home / "books"), page)
    yield opened
    opened.close()


class SlitDriver(AppDriver):
    """The app with a page in front, and a count of taps."""

    def __init__(self, ui: UI, home: Path, book: Path, page: str = "pass") -> None:
        super().__init__(ui, home, book)
        self.taps = 0
        self.start()
        self.shell.go(page)
        self.settle()

    def hit(self, widget: Any) -> None:
        """Tap a widget, counted."""
        self.taps += 1
        self.tap_on(widget)

    def touch(self, text: str, again: int = 0) -> None:
        """Tap what bears these words, counted."""
        self.hit(self.bearers(text)[again])

    def keys(self, *names: str) -> None:
        """Hit keys of the pad that is up, counted."""
        before = ""
        for name in names:
            if name == before:
                self.ui.wait(0.26)  # the same key sooner counts as a bounce
            self.taps += 1
            self.ui.tap(self.page.sheet.pad.touches[name])
            before = name
        self.settle()

    def seen(self) -> None:
        """Tap Seen on the banner, if one is up; a flag is no part of the task."""
        if self.shell.banner.parent is self.shell:
            self.tap("Seen")

    def green(self) -> None:
        """Go to the green."""
        self.shell.go("pass", surface_id="G7")
        self.settle()

    def cut(self, chip: str = "40.0") -> None:
        """Cut the next pass of the field by a chip of length."""
        self.touch(chip)
        self.seen()

    def open_part(self, name: str) -> None:
        """Turn to a part of the page."""
        self.page.turn_to(name)
        self.settle()

    def read_book(self) -> list[AnyEntry]:
        """Return every entry that is durable in the book."""
        found: list[list[AnyEntry]] = []
        rows = self.worker.job().book.rows
        self.worker.run(
            lambda: [read_entry(row.raw) for row in rows()], found.append, self._could_not
        )
        self.settle()
        return found[0]

    @staticmethod
    def _could_not(why: str) -> None:
        raise AssertionError(why)

    def written(self, kind: str) -> list[Any]:
        """Return the bodies of a kind in the book, in order, struck ones too."""
        return [entry.body for entry in self.read_book() if entry.kind == kind]
