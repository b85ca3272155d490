"""Transfers to a store and back, or with one handed-over file; each has a thread of its own.

The crew goes on writing meanwhile: what touches the open job is done in the worker.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from crewapp.commands.transfer import TransferKind, TransferRequest
from crewapp.handlers.exchange import exchange_job
from crewapp.job.open_job import OpenJob
from crewapp.pages.exchange.transfer_text import (
    exchange_result,
    handover_result,
    join_result,
    shrunk_store_result,
)
from crewapp.pages.exchange.view import StoreJob, TransferResult
from crewapp.pages.jobs.library import SUFFIX, free_name, slug
from crewapp.tablet.clock import TabletClock
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import say
from models.book.errors import BookError
from models.book.file.fsync_folder import make_folder_durably
from models.book.store import Book
from models.errors import CrewError
from sync.exchange.errors import NoJobYetError, StoreHoldsLessError
from sync.exchange.exchange_log import known_job
from sync.exchange.joining import join_book
from sync.exchange.listing import find_jobs
from sync.exchange.request import ExchangeReport, ExchangeRequest, PhotoChoice
from sync.exchange.thumbnails import find_thumbnailer
from sync.handover.errors import HandoverJobError, HandoverNotMadeError
from sync.handover.file_store import HandoverStore
from sync.handover.maker import SUFFIX as HANDED
from sync.handover.maker import make_handover
from sync.handover.taker import handover_request, require_job, take_new_handover
from sync.stores.opening import open_store


class JobHereError(CrewError, ValueError):
    """A job was to be joined that this tablet has already."""

    code = "trips.job_here"
    sentence = (
        "No new job was made: {name} is on this tablet already. Open it on the Jobs page, then "
        "exchange, or take the file into it."
    )


@dataclass(frozen=True, slots=True)
class Transfer:
    """Context of a transfer: whose it is, how it reaches the worker, how it reports and stops."""

    tablet: Tablet
    in_worker: Callable[[Callable[[], Any]], Any]
    find_job: Callable[[], OpenJob]  # to be asked in the worker
    on_step: Callable[[str, int, int], None] = lambda step, done, total: None
    is_cancelled: Callable[[], bool] = lambda: False

    def terms(self, where: str, at_ms: int = 0) -> ExchangeRequest:
        """Return the request of an exchange that reports its steps and can be stopped."""
        return ExchangeRequest(
            where=where,
            at_ms=at_ms,
            own_stream=self.tablet.stream(),
            ring=self.tablet.keys,
            thumbnail=find_thumbnailer(),
            on_step=self.on_step,
            is_cancelled=self.is_cancelled,
        )


def run_transfer(transfer: Transfer, request: TransferRequest) -> TransferResult:
    """Run the transfer that a page requests, and return its result.

    Raises
    ------
    CrewError
        If it can't be done; the open job is as it was, but for what came whole before.
    """
    match request.kind:
        case TransferKind.EXCHANGE:
            return exchange_with_store(
                transfer, allow_less=request.allow_less, over_gaps=request.over_gaps
            )
        case TransferKind.FIND_JOBS:
            return find_in_store(transfer)
        case TransferKind.JOIN_STORE:
            return join_in_store(transfer, request.key)
        case TransferKind.TAKE_FILE:
            return take_handover_file(transfer, request.path, over_gaps=request.over_gaps)
        case TransferKind.JOIN_FILE:
            return join_handover_file(transfer, request.path)
        case TransferKind.MAKE_FILE:
            return make_file(transfer, day=request.day, with_photos=request.with_photos)


def exchange_with_store(
    transfer: Transfer, *, allow_less: bool = False, over_gaps: bool = False
) -> TransferResult:
    """Exchange the open job with the store that is set.

    Raises
    ------
    CrewError
        If nothing could be exchanged at all.
    """
    where = transfer.tablet.settings().store
    job = transfer.in_worker(transfer.find_job)
    terms = replace(
        transfer.terms(where, job.clock.now().at_ms), allow_less=allow_less, over_gaps=over_gaps
    )
    with open_store(where, transfer.tablet.folder) as store:
        try:
            return _exchanged(
                transfer,
                job,
                lambda: exchange_job(job, transfer.tablet, store, terms, transfer.in_worker),
            )
        except StoreHoldsLessError as fault:
            return shrunk_store_result(fault)


def take_handover_file(
    transfer: Transfer, path: Path, *, over_gaps: bool = False
) -> TransferResult:
    """Take into the open job what a file holds of it.

    Raises
    ------
    CrewError
        If it is no hand-over file, or could do harm, or belongs to another job.
    """
    job = transfer.in_worker(transfer.find_job)
    terms = handover_request(path, replace(transfer.terms(path.name), over_gaps=over_gaps))
    with closing(HandoverStore(path)) as store:
        held = require_job(path, store, job.book)
        ended = _exchanged(
            transfer,
            job,
            lambda: exchange_job(job, transfer.tablet, store, terms, transfer.in_worker),
        )
    if ended.kind == "whole" and not ended.came:
        told = say("Entries in the file: {count}. All of them were here already.", count=held)
        return replace(ended, sentences=(told, *ended.sentences[1:]))
    return ended


def _exchanged(
    transfer: Transfer, job: OpenJob, exchange: Callable[[], ExchangeReport]
) -> TransferResult:
    """Tell what came of it, and from whom."""
    before = _counts(job)
    report = exchange()
    flags = transfer.in_worker(lambda: len(job.board.open_flags()))
    # What the crew wrote here meanwhile did not come from anybody.
    after = {s: seq for s, seq in _counts(job).items() if s != transfer.tablet.stream()}
    return exchange_result(report, before, after, flags)


def _counts(job: OpenJob) -> dict[str, int]:
    return {stream: seq for stream, (seq, _) in job.book.heads().items()}


def find_in_store(transfer: Transfer) -> TransferResult:
    """List the jobs of the store that is set, and which of them are on this tablet.

    Raises
    ------
    CrewError
        If the store could not be listed.
    """
    where = transfer.tablet.settings().store
    transfer.on_step("list", 0, 1)
    with open_store(where, transfer.tablet.folder) as store:
        found = find_jobs(store)
    here = jobs_here(transfer.tablet)
    jobs = tuple(
        StoreJob(one.key, one.name, one.segments, one.size, here.get(one.key, "")) for one in found
    )
    return TransferResult("found", jobs=jobs)


def join_in_store(transfer: Transfer, key: str) -> TransferResult:
    """Make a book of a job that lies in the store that is set.

    Raises
    ------
    JobHereError
        If this tablet has it.
    CrewError
        If it could not be joined.
    """
    where = transfer.tablet.settings().store
    path = _new_book(transfer.tablet, key)
    terms = replace(_joining(transfer, where), at_ms=TabletClock().now().at_ms)
    with open_store(where, transfer.tablet.folder) as store:
        return _joined(path, *_unless_empty(lambda: join_book(path, key, store, terms)))


def join_handover_file(transfer: Transfer, path: Path) -> TransferResult:
    """Make a book of the job that a file holds.

    Raises
    ------
    JobHereError
        If this tablet has it.
    CrewError
        If it is no hand-over file, or could do harm.
    """
    with closing(HandoverStore(path)) as store:
        keys = [one.key for one in find_jobs(store)]
    if len(keys) != 1:
        met = ", ".join(keys[:3]) or say("no job")
        raise HandoverJobError(name=path.name, met=met, wanted=say("one job"))
    new = _new_book(transfer.tablet, keys[0])
    terms = replace(_joining(transfer, path.name), photos=PhotoChoice.ALL)
    stream = transfer.tablet.stream()
    return _joined(new, *_unless_empty(lambda: take_new_handover(path, new, stream, terms)))


def make_file(transfer: Transfer, *, day: str = "", with_photos: bool = True) -> TransferResult:
    """Put the open job, or all that leads up to a day of it, into one file.

    Raises
    ------
    CrewError
        If there is no room, or it is too much for one file; nothing is left.
    """
    job = transfer.in_worker(transfer.find_job)
    folder = transfer.tablet.folder / "handover"
    try:
        make_folder_durably(folder)
    except OSError as fault:
        raise HandoverNotMadeError(
            name=slug(job.name),
            why=f"{folder} can't be made ({fault.strerror or fault})",
            remedy="Make room on the tablet, then make it again",
        ) from fault
    out = free_name(folder / f"{slug(job.name)}-{day or job.clock.now().day}{HANDED}")
    made = make_handover(
        job.book,
        transfer.tablet.keys,
        out,
        day=day,
        with_photos=with_photos,
        on_step=transfer.on_step,
    )
    return handover_result(made)


def jobs_here(tablet: Tablet) -> dict[str, str]:
    """Return the jobs on this tablet: key to the name of the book's file."""
    found: dict[str, str] = {}
    for path in sorted(tablet.books.glob(f"*{SUFFIX}")):
        try:
            with Book.open(path, read_only=True) as book:
                found.setdefault(known_job(book).key, path.stem)
        except (BookError, NoJobYetError):
            continue
    return found


def _new_book(tablet: Tablet, key: str) -> Path:
    """Return where the book of a job goes; one that a cut joining left empty is gone on with."""
    here = jobs_here(tablet).get(key)
    if here is not None:
        raise JobHereError(name=here)
    tablet.books.mkdir(parents=True, exist_ok=True)
    return tablet.books / f"{key}{SUFFIX}"


def _joining(transfer: Transfer, where: str) -> ExchangeRequest:
    return replace(transfer.terms(where), sends=False, photos=PhotoChoice.NONE)


def _unless_empty(join: Callable[[], tuple[ExchangeReport, Book]]) -> tuple[ExchangeReport, bool]:
    """Join, and tell whether the book has a job now."""
    report, book = join()
    with book:
        return report, book.newest("job") is not None


def _joined(path: Path, report: ExchangeReport, has_job: bool) -> TransferResult:
    return join_result(report, str(path) if has_job else "")
