"""Taking a hand-over in: as an exchange with a store that can only be read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from models.book.store import Book
from sync.exchange.coverage import count_covered
from sync.exchange.engine import exchange_book
from sync.exchange.exchange_log import known_job
from sync.exchange.joining import join_book
from sync.exchange.listing import SEGMENTS, find_jobs
from sync.exchange.request import ExchangeReport, ExchangeRequest
from sync.handover.errors import HandoverHoldsNothingError, HandoverJobError
from sync.handover.file_store import HandoverStore
from sync.segments.errors import SegmentError, SegmentTooNewError
from sync.segments.file_name import SegmentName
from sync.segments.limits import PACKED_BYTES
from sync.segments.reader import open_segment
from sync.stores.errors import NotInStoreError, TooLargeError


def take_handover(path: Path, book: Book, terms: ExchangeRequest) -> ExchangeReport:
    """Take into a book what a hand-over holds of its job.

    Raises
    ------
    HandoverUnreadableError
        If it is no hand-over file, or could do harm.
    HandoverJobError
        If it holds nothing of this job.
    HandoverHoldsNothingError
        If no entry of the job in it can be opened.
    """
    with HandoverStore(path) as store:
        require_job(path, store, book)
        return exchange_book(book, store, handover_request(path, terms))


def require_job(path: Path, store: HandoverStore, book: Book) -> int:
    """Refuse a hand-over that holds nothing of a book's job; return how many entries it holds.

    Raises
    ------
    HandoverJobError
        If it does not.
    HandoverHoldsNothingError
        If no entry of the job in it can be opened.
    """
    keys = [job.key for job in find_jobs(store)]
    wanted = known_job(book).key
    if wanted not in keys:
        raise HandoverJobError(name=path.name, met=_list(keys), wanted=wanted)
    return require_entries(path, store, wanted)


def require_entries(path: Path, store: HandoverStore, key: str) -> int:
    """Return how many entries of a job a hand-over holds; refuse one that holds none.

    Raises
    ------
    HandoverHoldsNothingError
        If no segment of the job in it can be opened.
    """
    names: list[SegmentName] = []
    for file in store.list(f"{key}/{SEGMENTS}"):
        name = SegmentName.find(file.name)
        if name is not None and _is_whole(store, file.name, name, key):
            names.append(name)
    if not names:
        raise HandoverHoldsNothingError(name=path.name, job=key)
    return count_covered(names)


def _is_whole(store: HandoverStore, path: str, name: SegmentName, key: str) -> bool:
    try:
        open_segment(name, store.read(path, PACKED_BYTES), key)
    except SegmentTooNewError:
        return True  # told of as waiting for a newer version
    except (SegmentError, NotInStoreError, TooLargeError):
        return False  # told of when it is set aside
    return True


def take_new_handover(
    path: Path, new: Path, stream: str, terms: ExchangeRequest
) -> tuple[ExchangeReport, Book]:
    """Make a new book of the one job that a hand-over holds; the caller closes it.

    Raises
    ------
    HandoverUnreadableError
        If it is no hand-over file, or could do harm.
    HandoverJobError
        If it holds no job, or several.
    HandoverHoldsNothingError
        If no entry of the job in it can be opened.
    models.book.errors.BookExistsError
        If there is a file where the book is to be.
    """
    with HandoverStore(path) as store:
        keys = [job.key for job in find_jobs(store)]
        if len(keys) != 1:
            raise HandoverJobError(name=path.name, met=_list(keys), wanted="one job")
        require_entries(path, store, keys[0])
        told = replace(handover_request(path, terms), own_stream=stream)
        return join_book(new, keys[0], store, told)


def handover_request(path: Path, terms: ExchangeRequest) -> ExchangeRequest:
    """Return terms for a file: nothing is written to it, and it need not hold what others do."""
    return replace(terms, where=path.name, sends=False, remembers=False, allow_less=True)


def _list(keys: list[str]) -> str:
    return ", ".join(keys[:3]) + (" and more" if len(keys) > 3 else "") if keys else "no job"
