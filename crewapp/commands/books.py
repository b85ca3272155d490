"""Opening books for commands: to look at, or to write into."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from crewapp.clock import TabletClock
from crewapp.open_job import OpenJob
from crewapp.tablet import Tablet
from models.book.store import Book
from models.errors import CrewError


class BookMissingError(CrewError, OSError):
    """A book was named that is not there."""

    code = "commands.book_missing"
    sentence = (
        "There is no book at {path}. A book made by the app, by `crewapp demo` or by "
        "`crewapp plan` would be read; nothing was written."
    )


class BookBusyError(CrewError, OSError):
    """A book is being written by another process."""

    code = "commands.book_busy"
    sentence = "Nothing was written to {path}: {why}"


@contextmanager
def book_to_read(path: Path) -> Iterator[OpenJob]:
    """Open a book for looking; the file is not changed."""
    if not path.exists():
        raise BookMissingError(path=path)
    job = OpenJob(Book.open(path, stream="", read_only=True), TabletClock(), author="")
    try:
        yield job
    finally:
        job.close()


@contextmanager
def book_to_write(path: Path, author: str, *, make: bool = False) -> Iterator[OpenJob]:
    """Open a book for writing; it is made only when asked."""
    if not make and not path.exists():
        raise BookMissingError(path=path)
    job = OpenJob.open(path, TabletClock(), author, Tablet.here().stream())
    try:
        if job.book.read_only_reason:
            raise BookBusyError(path=path, why=job.book.read_only_reason)
        zone = job.state.job.zone if job.state.job else "UTC"
        job.clock = TabletClock(zone)
        yield job
    finally:
        job.close()
