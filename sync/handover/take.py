"""Taking a hand-over in: as an exchange with a store that can only be read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from models.book.store import Book
from sync.exchange.engine import exchange_book
from sync.exchange.joining import join_book
from sync.exchange.ledger import known_job
from sync.exchange.shown import find_jobs
from sync.exchange.terms import Report, Terms
from sync.handover.errors import HandoverJobError
from sync.handover.opened import HandoverStore


def take_handover(path: Path, book: Book, terms: Terms) -> Report:
    """Take into a book what a hand-over holds of its job.

    Raises
    ------
    HandoverUnreadableError
        If it is no hand-over file, or could do harm.
    HandoverJobError
        If it holds nothing of this job.
    """
    with HandoverStore(path) as store:
        keys = [job.key for job in find_jobs(store)]
        wanted = known_job(book).key
        if wanted not in keys:
            raise HandoverJobError(name=path.name, met=_list(keys), wanted=wanted)
        return exchange_book(book, store, _terms(path, terms))


def take_new_handover(path: Path, new: Path, terms: Terms) -> tuple[Report, Book]:
    """Make a new book of the one job that a hand-over holds; the caller closes it.

    Raises
    ------
    HandoverUnreadableError
        If it is no hand-over file, or could do harm.
    HandoverJobError
        If it holds no job, or several.
    models.book.errors.BookExistsError
        If there is a file where the book is to be.
    """
    with HandoverStore(path) as store:
        keys = [job.key for job in find_jobs(store)]
        if len(keys) != 1:
            raise HandoverJobError(name=path.name, met=_list(keys), wanted="one job")
        return join_book(new, keys[0], store, _terms(path, terms))


def _terms(path: Path, terms: Terms) -> Terms:
    return replace(terms, where=path.name, sends=False, remembers=False, allow_less=True)


def _list(keys: list[str]) -> str:
    return ", ".join(keys[:3]) + (" and more" if len(keys) > 3 else "") if keys else "no job"
