"""Jobs: the books of this tablet, a new job, the demo, a plan from the office."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, ClassVar

from crewapp.commands.plan.plan_entries import AddPlan
from crewapp.commands.transfer import TransferKind, TransferRequest
from crewapp.kit.input.fields import LengthEntry, length_field
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.jobs.view import BookRow, JobsView, NewJob
from crewapp.words.translate import say


class JobsPage(PartedPage):
    """The page for choosing a job. Its view is the library, which needs no open book."""

    name: ClassVar[str] = "jobs"
    keeps_room: ClassVar[bool] = False
    parts: ClassVar[dict[str, str]] = {
        "shelf": "crewapp.pages.jobs.parts:LibraryPart",
        "new": "crewapp.pages.jobs.parts:NewPart",
        "ground": "crewapp.pages.jobs.parts:GroundPart",
        "plans": "crewapp.pages.jobs.parts:PlansPart",
        "plan_for": "crewapp.pages.jobs.parts:PlanForPart",
    }

    def refresh(self) -> None:
        """Look at the library anew, away from the glass."""
        tablet, worker = self.shell.tablet, self.shell.worker

        def look() -> JobsView:
            from crewapp.pages.jobs.library import library_view

            return library_view(tablet, worker.broken, worker.open_name)

        self._run(look, self._take)

    def pick_book(self, path: str) -> None:
        """Open a book; for a broken one, make a copy of all that still holds, then open that."""
        book = next(one for one in self.view.books if one.path == path)
        if not book.is_broken:
            self.shell.open_book(Path(path))
        elif book.can_salvage:
            self._salvage(Path(path))
        else:
            self.shell.say_failed(book.detail)

    def _salvage(self, path: Path) -> None:
        def salvage() -> Path:
            from crewapp.pages.jobs.library import salvage_book

            return salvage_book(path)

        self._run(salvage, self.shell.open_book)

    def open_demo(self) -> None:
        """Make the invented demo job if it is not there, and open it."""
        self.shell.say_wait(say("Working the demo's three days ..."))

        def make() -> Path:
            from crewapp.pages.jobs.library import open_demo

            return open_demo(self.shell.tablet)

        self._run(make, self.shell.open_book)

    def start(self) -> None:
        """Start the job on the form."""
        new = self.new_job()

        def make() -> Path:
            from crewapp.pages.jobs.library import start_job

            return start_job(self.shell.tablet, new)

        self._run(make, self._started)

    def pick_plan(self, name: str) -> None:
        """Take a plan file of the inbox; with a job open, ask whether it is for that."""
        self.keep_draft(plan=name)
        if self.view.open_job:
            self.turn_to("plan_for")
        else:
            self.plan_to_new()

    @property
    def plan_path(self) -> Path:
        """The plan file that was picked."""
        return Path(self.view.inbox) / str(self.draft.get("plan", ""))

    @property
    def is_handover(self) -> bool:
        """Whether what was picked is a handed-over job and no plan."""
        return self.plan_path.name in self.view.handed

    def to_exchange(self) -> None:
        """Exchange the open job; with none, join one."""
        self.shell.go("sync", part="home" if self.view.open_job else "join")

    def plan_to_new(self) -> None:
        """Make a book from the plan file, or of the job that was handed over."""
        if self.is_handover:
            self._transfer(TransferKind.JOIN_FILE)
            return
        path = self.plan_path

        def make() -> Path:
            from crewapp.pages.jobs.library import import_plan

            return import_plan(self.shell.tablet, path)

        self._run(make, self._started)

    def plan_to_open(self) -> None:
        """Add the plan file to the job that is open, or take in what was handed over."""
        if self.is_handover:
            self._transfer(TransferKind.TAKE_FILE)
            return
        self.do(AddPlan(path=str(self.plan_path)))

    def _transfer(self, kind: TransferKind) -> None:
        """Take a handed-over file on the Exchange page, which tells how far it is."""
        path = self.plan_path
        self.keep_draft(part="shelf", plan="")
        page: Any = self.shell.go("sync")
        page.run(TransferRequest(kind=kind, path=path), "home")

    def after_command(self, changed: Any) -> None:
        """Show the page that tells of the plan, once it was added."""
        self.keep_draft(part="shelf", plan="")
        self.shell.go("plan")

    def new_job(self) -> NewJob:
        """Return the job as it stands on the form."""
        kept = self.draft.get("new", {})
        known = {key: value for key, value in kept.items() if hasattr(NewJob(), key)}
        return NewJob(**{"unit_system": self.shell.tablet.settings().unit_system, **known})

    def keep_new(self, **typed: str) -> None:
        """Keep what was typed on the form."""
        self.keep_draft(new={**self.draft.get("new", {}), **typed})

    def pad_question(self, field: str) -> PadQuestion | None:
        """Ask for a side of the rectangle."""
        is_us = self.new_job().unit_system == "us"
        entry = LengthEntry.FEET_TENTHS if is_us else LengthEntry.METRE_HUNDREDTHS
        words = {
            "along": say("Length, the way the machine drives"),
            "across": say("Width, square to that"),
        }
        return PadQuestion(length_field(words[field], entry), place=say("New job"))

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take a side of the rectangle, with its unit."""
        unit = "ft" if self.new_job().unit_system == "us" else "m"
        self.keep_new(**{field: f"{text} {unit}"})
        self.drop_typed()
        self.fill()

    def _started(self, path: Path) -> None:
        self.keep_draft(new={}, part="shelf")
        self.shell.open_book(path)

    def _run(self, work: Callable[[], Any], done: Callable[[Any], None]) -> None:
        self.shell.worker.run(work, done, self.shell.say_failed)


def book_row(book: BookRow) -> dict[str, Any]:
    """Return a book as a row of the list."""
    detail = book.detail
    if book.can_salvage:
        detail = say(
            "Damaged. Tap: a copy of all that still holds is made; this file is not changed."
        )
    status = "out" if book.is_broken else ""
    return {"key": book.path, "title": book.name, "detail": detail, "status": status}


def library_rows(view: JobsView) -> list[dict[str, Any]]:
    """Return every book as rows of the list."""
    return [book_row(book) for book in view.books]
