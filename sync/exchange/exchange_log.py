"""Notes of earlier exchanges: segments that are set aside, and the listing of each store.

Nothing of it is a record: lost or damaged, it is made anew by looking at everything again.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from models.book.store import Book
from models.errors import CrewError
from sync.exchange.job_folder import JobFolder, write_atomically
from sync.exchange.job_key import job_of
from sync.segments.file_name import SegmentName
from sync.segments.version import VERSION
from sync.trust.members import Job

_LARGEST = 1024 * 1024 * 1024  # our own file: rubbish in a store makes it long, never wrong


@dataclass(frozen=True, slots=True)
class RejectedSegment:
    """A segment that is not in the book, and why."""

    name: str
    code: str  # of the error; stable
    sentence: str
    reader: int = VERSION  # form of segment that the app knew when it looked
    is_final: bool = False  # whether the same bytes can't be judged otherwise later

    @property
    def is_retryable(self) -> bool:
        """Whether it only waits for a tablet to be added, or for what comes before it."""
        return self.code in WAITING


WAITING = frozenset(
    ("exchange.unknown_tablet", "exchange.gap", "exchange.fork_gap", "segment.too_new")
)


@dataclass(slots=True)
class StoreListing:
    """Listing of a store at the last exchange."""

    at_ms: int = 0
    names: list[str] = field(default_factory=list)
    sent: list[str] = field(default_factory=list)  # proven there since, though not listed yet


@dataclass(slots=True)
class ExchangeLog:
    """The notes of one job."""

    founder: str = ""
    key: str = ""
    taken: set[str] = field(default_factory=set)
    damaged: set[str] = field(default_factory=set)  # kept here, and no more what they were
    aside: dict[str, RejectedSegment] = field(default_factory=dict)
    stores: dict[str, StoreListing] = field(default_factory=dict)
    sealed: dict[str, int] = field(default_factory=dict)

    @classmethod
    def read(cls, path: Path) -> ExchangeLog:
        """Read the notes; what can't be read counts as not noted."""
        try:
            with path.open("rb") as file:
                told: Any = json.loads(file.read(_LARGEST))
            return cls(
                str(told["founder"]),
                str(told["key"]),
                set(map(str, told["taken"])),
                set(map(str, told["damaged"])),
                {one["name"]: RejectedSegment(**one) for one in told["aside"]},
                {where: StoreListing(**seen) for where, seen in told["stores"].items()},
                {str(stream): int(seq) for stream, seq in told["sealed"].items()},
            )
        except (OSError, ValueError, KeyError, TypeError, RecursionError):
            return cls()

    def write(self, path: Path) -> None:
        """Save the notes to their file.

        Raises
        ------
        LocalStorageError
            If the storage refuses; the notes of before stand.
        """
        told = {
            "founder": self.founder,
            "key": self.key,
            "taken": sorted(self.taken),
            "damaged": sorted(self.damaged),
            "aside": [asdict(one) for _, one in sorted(self.aside.items())],
            "stores": {where: asdict(seen) for where, seen in sorted(self.stores.items())},
            "sealed": dict(sorted(self.sealed.items())),
        }
        write_atomically(path, json.dumps(told, separators=(",", ":")).encode())

    def remember_job(self, job: Job) -> Job:
        """Remember which job this is, once and for all; return the one remembered."""
        if job.founder and not self.founder:
            self.founder, self.key = job.founder, job.key
        return Job(self.founder, self.key) if self.founder else job

    def reject(self, name: SegmentName, why: CrewError, is_final: bool = False) -> None:
        """Note that a segment is not in the book, and why."""
        self.aside[str(name)] = RejectedSegment(str(name), why.code, str(why), VERSION, is_final)

    def mark_accepted(self, name: SegmentName) -> None:
        """Note that all of a segment is in the book."""
        self.taken.add(str(name))
        self.aside.pop(str(name), None)

    def is_refused(self, name: SegmentName) -> bool:
        """Whether these bytes were refused for good by a reader that knew as much as this one."""
        known = self.aside.get(str(name))
        return known is not None and known.is_final and known.reader == VERSION

    def take_retryable(self) -> dict[str, RejectedSegment]:
        """Remove from the list, and return, segments that may be judged otherwise this time."""
        waiting = {name: one for name, one in self.aside.items() if not one.is_final}
        for name in waiting:
            del self.aside[name]
        return waiting

    def restore_rejected(self, before: dict[str, RejectedSegment]) -> None:
        """Put back on the list the segments that were on it and not settled since."""
        for name, one in before.items():
            if name not in self.taken:
                self.aside.setdefault(name, one)

    def rejected_segments(self) -> Iterator[RejectedSegment]:
        """Segments that are set aside now, in the order of names."""
        for _, one in sorted(self.aside.items()):
            yield one


def known_job(book: Book) -> Job:
    """Return the job of a book: as noted at its first exchange, or as its entries say.

    Raises
    ------
    NoJobYetError
        If it holds none.
    """
    noted = ExchangeLog.read(JobFolder.of_book(book.path).log)
    return Job(noted.founder, noted.key) if noted.founder else job_of(book)
