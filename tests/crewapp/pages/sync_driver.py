"""A foreman's hand on the Exchange page: tablets with a home each, a folder in their midst."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from crewapp.commands.command import Command
from crewapp.commands.passes import LogPass
from crewapp.handlers.exchange import exchange_job
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import SetClock
from crewapp.tablet.settings import Settings, Tablet
from models.book.store import Book
from models.entries.tablet_code import code_of
from sync.exchange.joining import join_book
from sync.exchange.listing import find_jobs
from sync.exchange.request import ExchangeRequest
from sync.stores.folder import FolderStore
from tests.crewapp.conftest import DAY, plan_text
from tests.crewapp.pages.plan_driver import PlanDriver

if TYPE_CHECKING:
    from tests.uidriver import UI

FT_NM = 304_800_000


def found_job(home: Path) -> Path:
    """Write the small job on a tablet, under its own key; return its book."""
    tablet, clock = Tablet(home), SetClock("America/Chicago", 0)
    clock.set_to(DAY, 8 * 60)
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


class SyncDriver(PlanDriver):
    """The app of one tablet with the Exchange page in front."""

    def __init__(self, ui: UI, home: Path, store: Path | None, book: Path | None) -> None:
        kept = Settings(author="foreman", store=str(store) if store else "")
        Tablet(home).keep_settings(replace(kept, last_book=str(book or "")))
        super().__init__(ui, home, book, "sync")

    def arrived(self) -> SyncDriver:
        """Wait for the end of the transfer, and let the page tell."""
        thread = self.shell.exchange.thread
        while thread.is_alive():
            thread.join(0.01)
            self.ui.pump(1)
        self.settle()
        return self

    def exchange(self) -> SyncDriver:
        """Tap the one large key and wait."""
        self.tap("Exchange now")
        return self.arrived()

    def type_code(self, code: str) -> None:
        """Type a tablet's code; its first and last letters by touch, to save frames."""
        letters, sheet = code.replace("-", ""), self.page.tablets.sheet
        self.ui.tap(sheet.keys[letters[0]])
        for letter in letters[1:-1]:
            sheet._take(sheet.typed.add_letter(letter))
        self.ui.tap(sheet.keys[letters[-1]])
        self.settle()

    def facts(self) -> dict[str, str]:
        """Return the facts of the first part: title to figure."""
        return {fact.title: fact.figure for fact in self.page.part.told.facts}

    def cut(self, line: str) -> Any:
        """Log a pass on a line, as the Pass page would."""
        self.do(LogPass(surface_id="G7", line_ids=(line,), length_nm=30 * FT_NM, length_typed="30"))

    def do(self, command: Command) -> None:
        """Carry a command out, as another page would have it done."""
        self.shell.do(command, lambda changed: None)
        self.settle()

    def put_down(self) -> None:
        """Lay the tablet aside, so that another can be taken in hand."""
        self.close()


class Crew:
    """Tablets that work without a screen: what the others did while nobody looked."""

    def __init__(self, root: Path, store: Path) -> None:
        self.root, self.folder, self.clock = root, store, SetClock("America/Chicago", 0)
        self.clock.set_to(DAY, 8 * 60 + 30)

    def tablet(self, name: str) -> Tablet:
        """Return a tablet by the name of its home."""
        return Tablet(self.root / name)

    def open(self, name: str) -> OpenJob:
        """Open the one book of a tablet."""
        (path,) = self.tablet(name).books.glob("*.book")
        return OpenJob.open(path, self.clock, name, self.tablet(name).stream())

    def exchange(self, name: str, *work: Callable[[OpenJob], object]) -> None:
        """Do some work on a tablet, then exchange."""
        job = self.open(name)
        for one in work:
            one(job)
        terms = ExchangeRequest(where=str(self.folder), at_ms=self.clock.at_ms)
        exchange_job(job, self.tablet(name), FolderStore(self.folder), terms)
        job.close()

    def join(self, name: str) -> str:
        """Make a book of the store's job on another tablet; return that tablet's code."""
        tablet, store = self.tablet(name), FolderStore(self.folder)
        tablet.books.mkdir(parents=True)
        (found,) = find_jobs(store)
        terms = ExchangeRequest(
            where=str(self.folder), own_stream=tablet.stream(), ring=tablet.keys, sends=False
        )
        _, book = join_book(tablet.books / f"{found.key}.book", found.key, store, terms)
        book.close()
        return code_of(tablet.stream())


def cut_line(line: str) -> Callable[[OpenJob], object]:
    """A pass on one line, to be logged."""

    def work(job: OpenJob) -> object:
        fields = {"surface_id": "G7", "line_ids": (line,), "length_nm": 30 * FT_NM}
        return do(job, LogPass(**fields, length_typed="30"))  # type: ignore[arg-type]

    return work
