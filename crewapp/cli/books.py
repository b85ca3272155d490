"""Opening books for commands: to look at, or to write into."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from crewapp.job.open_job import OpenJob
from crewapp.tablet.clock import TabletClock
from crewapp.tablet.settings import Tablet
from models.book.store import Book
from models.errors import CrewError

LONGEST_AUTHOR = 80


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


class FolderMissingError(CrewError, OSError):
    """A book was to be made in a folder that is not there."""

    code = "commands.folder_missing"
    sentence = (
        "No book was made at {path}: there is no folder {folder}. "
        "A name in a folder that is there would be accepted. Nothing was written."
    )


class AuthorUnreadableError(CrewError, ValueError):
    """A name was given for the author that no entry can carry."""

    code = "commands.author_unreadable"
    sentence = "Nothing was written: the author {why}. A name of 1 to 80 letters would be accepted."


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
    """Open a book for writing; a missing file is made only with ``may_create``."""
    _need_author(author)
    if not make and not path.exists():
        raise BookMissingError(path=path)
    if not path.parent.is_dir():
        raise FolderMissingError(path=path, folder=path.parent)
    tablet = Tablet.of_user()
    job = OpenJob.open(path, TabletClock(), author, tablet.stream())
    try:
        job.keep_heads(tablet.heads)
        if job.book.read_only_reason:
            raise BookBusyError(path=path, why=job.book.read_only_reason)
        zone = job.state.job.zone if job.state.job else "UTC"
        job.clock = TabletClock(zone)
        yield job
    finally:
        job.close()


def _need_author(author: str) -> None:
    """Every entry carries its author: a name that can be written in a file."""
    if not author.strip():
        raise AuthorUnreadableError(why="has no name")
    if len(author) > LONGEST_AUTHOR:
        raise AuthorUnreadableError(why=f"has a name of {len(author)} letters")
    if any("\ud800" <= letter <= "\udfff" for letter in author):
        raise AuthorUnreadableError(why="has half a character in the name")
