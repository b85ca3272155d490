"""Status of a job's exchange: unsent entries, last exchange, rejected entries."""

from __future__ import annotations

from dataclasses import dataclass

from models.book.store import Book
from sync.exchange.entry_source import members_of
from sync.exchange.job_folder import Place
from sync.exchange.ledger import Ledger, SeenStore, SetAside, known_job
from sync.trust.keys import KeyRing
from sync.trust.members import Job, Members


@dataclass(frozen=True, slots=True)
class Standing:
    """Status of a job's exchange as the tablet knows it, without asking the store."""

    job: Job
    members: Members
    waiting_rows: int  # entries of this tablet that are in no segment yet
    waiting_segments: int  # segments that the store did not show last time
    last_ms: int  # when the last exchange with it came to its end; 0: never [UTC ms]
    aside: tuple[SetAside, ...]
    may_write: bool  # whether this tablet is on the list, so that others take what it sends


def standing(book: Book, where: str, ring: KeyRing, own_stream: str) -> Standing:
    """Read the status of a job's exchange; the store is not read and nothing is written.

    Raises
    ------
    NoJobYetError
        If the book holds no job.
    """
    place = Place.beside(book.path)
    ledger = Ledger.read(place.ledger)
    job = known_job(book)
    members = members_of(book, job)
    seen = ledger.stores.get(where, SeenStore())
    shown = {*seen.names, *seen.sent}
    names = place.names()
    waiting = 0
    for stream, (seq, _) in book.heads().items():
        if ring.signer(stream) is not None:
            sealed = max((name.last for name in names if name.stream == stream), default=0)
            waiting += max(0, seq - sealed)
    return Standing(
        job,
        members,
        waiting,
        sum(str(name) not in shown for name in names),
        seen.at_ms,
        tuple(ledger.open_asides()),
        members.may_write(own_stream),
    )
