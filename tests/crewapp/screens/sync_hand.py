"""A foreman's hand on the Exchange page: tablets with a home each, a folder in their midst."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.actions.planning import set_up_all
from crewapp.clock import SetClock
from crewapp.open_job import OpenJob
from crewapp.paper.plan_file import read_plan
from crewapp.tablet import Settings, Tablet
from models.book.store import Book
from tests.crewapp.conftest import DAY, plan_text
from tests.crewapp.screens.plan_hand import PlanHand

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


def found_job(home: Path) -> Path:
    """Write the small job on a tablet, under its own key; return its book."""
    tablet, clock = Tablet(home), SetClock("America/Chicago", 0)
    clock.put(DAY, 8 * 60)
    tablet.books.mkdir(parents=True)
    path = tablet.books / "small.book"
    job = OpenJob.open(path, clock, "foreman", tablet.stream())
    set_up_all(job, read_plan(Path("small.json"), plan_text()))
    job.close()
    return path


def rows_of(path: Path) -> list[tuple[str, bytes]]:
    """Return every entry of a book, to be compared with another's."""
    with Book.open(path, read_only=True) as book:
        return sorted((row.id, row.raw) for row in book.rows())


class SyncHand(PlanHand):
    """The app of one tablet with the Exchange page in front."""

    def __init__(self, ui: UI, home: Path, store: Path | None, book: Path | None) -> None:
        kept = Settings(author="foreman", store=str(store) if store else "")
        Tablet(home).keep_settings(replace(kept, last_book=str(book or "")))
        super().__init__(ui, home, book, "sync")

    def arrived(self) -> SyncHand:
        """Wait for the end of the trip, and let the page tell."""
        thread = self.shell.exchange.thread
        while thread.is_alive():
            thread.join(0.01)
            self.ui.pump(1)
        self.settle()
        return self

    def exchange(self) -> SyncHand:
        """Tap the one large key and wait."""
        self.tap("Exchange now")
        return self.arrived()

    def type_code(self, code: str) -> None:
        """Type a tablet's code letter by letter."""
        for letter in code.replace("-", ""):
            self.ui.tap(self.page.tablets.sheet.keys[letter])
        self.settle()

    def facts(self) -> dict[str, str]:
        """Return the facts of the first part: title to figure."""
        return {fact.title: fact.figure for fact in self.page.part.told.facts}

    def cut(self, line: str) -> Any:
        """Log a pass on a line, as the Pass page would."""
        fields = {"surface_id": "G7", "line_ids": (line,), "length_nm": 30 * FT_NM}
        self.act("slits:log_pass", **fields, length_typed="30")

    def put_down(self) -> None:
        """Lay the tablet aside, so that another can be taken in hand."""
        self.close()
