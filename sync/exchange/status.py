"""Status of a job's exchange: unsent entries, last exchange, rejected entries."""

from __future__ import annotations

from dataclasses import dataclass

from models.book.store import Book
from sync.exchange.entry_source import members_of
from sync.exchange.exchange_log import ExchangeLog, RejectedSegment, StoreListing, known_job
from sync.exchange.job_folder import JobFolder
from sync.trust.keys import KeyRing
from sync.trust.members import Job, Members


@dataclass(frozen=True, slots=True)
class ExchangeStatus:
    """Status of a job's exchange as the tablet knows it, without asking the store."""

    job: Job
    members: Members
    waiting_rows: int  # entries of this tablet that are in no segment yet
    waiting_segments: int  # segments that the store did not show last time
    last_ms: int  # when the last exchange with it came to its end; 0: never [UTC ms]
    aside: tuple[RejectedSegment, ...]
    may_write: bool  # whether this tablet is on the list, so that others take what it sends


def exchange_status(book: Book, where: str, ring: KeyRing, own_stream: str) -> ExchangeStatus:
    """Read the status of a job's exchange; the store is not read and nothing is written.

    Raises
    ------
    NoJobYetError
        If the book holds no job.
    """
    place = JobFolder.of_book(book.path)
    log = ExchangeLog.read(place.log)
    job = known_job(book)
    members = members_of(book, job)
    seen = log.stores.get(where, StoreListing())
    shown = {*seen.names, *seen.sent}
    names = place.names()
    waiting = 0
    for stream, (seq, _) in book.heads().items():
        if ring.signer(stream) is not None:
            sealed = max((name.last for name in names if name.stream == stream), default=0)
            waiting += max(0, seq - sealed)
    return ExchangeStatus(
        job,
        members,
        waiting,
        sum(str(name) not in shown for name in names),
        seen.at_ms,
        tuple(log.rejected_segments()),
        members.may_write(own_stream),
    )
