"""Tablets for tests: each with a book, a key and its own idea of who writes. All invented."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from models.book.row import Draft, Row
from models.book.store import Book
from models.entries.envelope import body_fields
from models.entries.tablet_code import code_of
from sync.exchange.engine import exchange_book
from sync.exchange.entry_source import heads_beyond_revocation, members_of, stream_tips
from sync.exchange.job_folder import JobFolder
from sync.exchange.job_key import job_of
from sync.exchange.request import ExchangeReport, ExchangeRequest
from sync.segments.reader import open_segment
from sync.segments.writer import SealedSegment, pack
from sync.stores.contract import ListedFile, Store
from sync.stores.errors import NotInStoreError, StoreNameTakenError, TooLargeError
from sync.trust.keys import MemoryKeyRing, Signer
from sync.trust.succession import vouch_for

DAY = "2026-05-28"
NOON_MS = 1_780_000_000_000
_numbers = itertools.count(1)


def begin_ids_at(number: int) -> None:
    """Let ids go on from a number: for a child process that shares the count of its parent."""
    global _numbers  # one process, one count
    _numbers = itertools.count(number)


def next_id() -> str:
    """Return an id that no other entry of this run has."""
    return f"0198f000-0000-7000-8000-{next(_numbers):012x}"


def draft(kind: str = "note", **body: Any) -> Draft:
    """Make a draft of an entry; a note if nothing else is asked for."""
    told = body or {"text": "so far", "needs_owner": False}
    return Draft(
        id=next_id(),
        kind=kind,
        v=1,
        body=told,
        at_ms=NOON_MS,
        offset_min=-300,
        zone="America/Chicago",
        author="Wren",
        job="green-7",
        day=DAY,
    )


class MemoryStore:
    """A store in memory that keeps its word."""

    def __init__(self) -> None:
        self.files: dict[str, bytes] = {}
        self.reads: list[str] = []

    def list(self, folder: str) -> list[ListedFile]:
        """Return the files below a folder."""
        start = f"{folder}/" if folder else ""
        names = sorted(name for name in self.files if name.startswith(start))
        return [ListedFile(name, len(self.files[name])) for name in names]

    def read(self, name: str, limit: int) -> bytes:
        """Return the bytes of a file."""
        self.reads.append(name)
        if name not in self.files:
            raise NotInStoreError(name=name, where="memory")
        if len(self.files[name]) > limit:
            raise TooLargeError(name=name, where="memory", limit=limit)
        return self.files[name]

    def write(self, name: str, data: bytes) -> None:
        """Put a file in, if no other stands there."""
        if self.files.setdefault(name, data) != data:
            raise StoreNameTakenError(
                name=name, where="memory", taken=name, act="", why="", remedy=""
            )


@dataclass(slots=True)
class Crew:
    """One tablet of the crew: its book and the keys it holds."""

    path: Path
    signer: Signer
    held: list[Signer] = field(default_factory=list)
    book: Book = field(init=False)

    def __post_init__(self) -> None:
        opens = Book.open if self.path.exists() else Book.create
        self.held.append(self.signer)
        self.book = opens(self.path, stream=self.signer.stream, reserve_bytes=10)

    @property
    def code(self) -> str:
        """The code of the stream that it writes now."""
        return code_of(self.signer.stream)

    @property
    def place(self) -> JobFolder:
        """Where its segments lie."""
        return JobFolder.of_book(self.path)

    @property
    def key(self) -> str:
        """The key of the job in its book."""
        return job_of(self.book).key

    def ink(self, *drafts: Draft) -> list[Row]:
        """Write entries; one note if nothing is given."""
        return self.book.commit_all(list(drafts) or [draft()])

    def found(self) -> None:
        """Start the job."""
        self.ink(draft("job", job_id="green-7", name="Green 7", owner="The Owner"))

    def add(self, *others: Crew | Signer) -> None:
        """Put other tablets on the list."""
        signers = [one.signer if isinstance(one, Crew) else one for one in others]
        known = members_of(self.book, job_of(self.book)).tablets
        for one in signers:
            code = code_of(one.stream)
            lifts = list(known[code].revoked_by) if code in known else []
            self.ink(draft("tablet_added", code=code, lifts=lifts))

    def revoke(self, other: Crew | Signer) -> None:
        """Take a tablet off the list, with what is held of it."""
        stream = (other.signer if isinstance(other, Crew) else other).stream
        held = sorted(stream_tips(self.book, stream))
        heads = [f"{seq}:{digest.hex()}" for seq, digest in held]
        self.ink(draft("tablet_revoked", code=code_of(stream), heads=heads, why="lost"))

    def uphold(self) -> None:
        """Tell of what is held beyond the heads that others know of, as a member does."""
        members = members_of(self.book, job_of(self.book))
        if not members.may_write(self.signer.stream):
            return
        for code, heads in sorted(heads_beyond_revocation(self.book, members).items()):
            told = [f"{seq}:{digest.hex()}" for seq, digest in sorted(heads)]
            self.ink(draft("tablet_revoked", code=code, heads=told, only_heads=True))

    def introduce(self) -> None:
        """After a new identity: go on the list, vouched for by a key that is."""
        members = members_of(self.book, job_of(self.book))
        if members.may_write(self.signer.stream):
            return
        for old in self.held:
            if members.may_write(old.stream):
                body = vouch_for(old, self.signer.stream, members.job.key)
                self.ink(draft("tablet_added", **body_fields(body)))
                return

    def sync(self, store: Store, **terms: Any) -> ExchangeReport:
        """Exchange with a store; a tablet whose identity was used goes on with another."""
        usual: dict[str, Any] = {
            "where": "memory",
            "ring": MemoryKeyRing(*self.held),
            "own_stream": self.signer.stream,
            "renew": self.renew,
        }
        return exchange_book(self.book, store, ExchangeRequest(**{**usual, **terms}))

    def renew(self) -> None:
        """Take a new identity; the old key is kept, to send what the old one wrote."""
        self.signer = Signer.new()
        self.held.append(self.signer)
        self.book.switch_stream(self.signer.stream)

    def raws(self) -> list[bytes]:
        """Return every entry in order, byte for byte."""
        return [row.raw for row in self.book.rows()]

    def close(self) -> None:
        """Let go of the book."""
        self.book.close()


def forged(data: SealedSegment, signer: Signer, **changes: Any) -> SealedSegment:
    """Write a segment anew with a changed header, signed by whoever signs."""
    from dataclasses import replace

    segment = open_segment(data.name, data.data)
    header = replace(segment.header, **changes)
    header = replace(header, signature=signer.sign(header.signed_bytes()))
    span = (header.stream, header.first, header.last)
    return pack(header.line(), segment.lines, span)
