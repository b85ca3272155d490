"""Joining a job that is in a store: a new book, filled from there, whose founder is proven."""

from __future__ import annotations

from pathlib import Path

from models.book.errors import BookExistsError
from models.book.store import Book
from sync.exchange.engine import exchange
from sync.exchange.errors import NoJobYetError
from sync.exchange.job_folder import JobFolder
from sync.exchange.request import ExchangeReport, ExchangeRequest
from sync.stores.contract import Store
from sync.trust.members import Job


def join_book(
    path: Path, key: str, store: Store, terms: ExchangeRequest
) -> tuple[ExchangeReport, Book]:
    """Make a book of a job that a store holds; the caller closes it.

    The key says who founded the job, so that no other job passes for it. What this tablet
    writes reaches the others once one of them has added it by its code.

    Raises
    ------
    models.book.errors.BookExistsError
        If there is a file of that name that holds anything.
    NoJobYetError
        If the store holds no entry by which the job was founded; the book stays, empty.
    sync.stores.errors.StoreError
        If the store could not be listed.
    """
    book = _empty_book(path, terms.own_stream)
    try:
        report = exchange(book, JobFolder.of_book(path), store, Job("", key), terms)
        if not report.job.founder and not report.is_cancelled and not report.cut:
            raise NoJobYetError(path=path)
    except BaseException:
        book.close()
        raise
    return report, book


def holds_nothing(path: Path) -> bool:
    """Whether there is no book yet, or only the empty one that a cut joining left behind.

    Raises
    ------
    models.book.errors.BookError
        If what is there is no book, or can't be read.
    """
    if not path.exists():
        return True
    with Book.open(path, read_only=True) as book:
        return book.count() == 0


def _empty_book(path: Path, stream: str) -> Book:
    """Make a book, or open the empty one that a cut joining left behind."""
    if not path.exists():
        return Book.create(path, stream=stream)
    book = Book.open(path, stream=stream)
    if book.count() or book.read_only_reason:
        book.close()
        raise BookExistsError(path=path)
    return book
