"""Request of an exchange, and its report."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum

from sync.exchange.coverage import UnsignedEntries
from sync.exchange.exchange_log import RejectedSegment
from sync.exchange.merging import OnRows
from sync.exchange.photos import PhotoResult, Thumbnail
from sync.exchange.progress import OnStep
from sync.exchange.sending import SendResult
from sync.trust.keys import KeyRing, MemoryKeyRing
from sync.trust.members import Job, Members


class PhotoChoice(Enum):
    """Choice of pictures that an exchange carries."""

    ALL = "all"
    SMALL = "small"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class ExchangeRequest:
    """How to exchange; everything has a safe default but the name of the store.

    Parameters
    ----------
    where : str
        The store as the user knows it; what it showed is remembered under this name.
    ring : KeyRing
        Keys of this tablet's streams; rows of other streams are passed on, never signed.
    own_stream : str
        The stream that this tablet writes now.
    at_ms : int
        The time, as a claim, for "last exchanged". [UTC ms]
    allow_less : bool
        Whether the store may show less than last time.
    over_gaps : bool
        Whether entries may come in although some before them are missing.
    proves_all : bool
        Whether to read back also what the store has had before.
    sends : bool
        Whether to write into the store at all.
    remembers : bool
        Whether to note what the store showed, and hold the next exchange against it.
    photos : Photos
        Which pictures travel.
    thumbnail : callable, optional
        Makes a small picture of a photo's bytes, or None if it can't.
    on_step : callable, optional
        Told ``(step, done, total)``; steps are in ``sync.exchange.progress.STEPS``.
    is_cancelled : callable, optional
        Asked before every piece of work.
    on_rows : callable, optional
        Given the rows of each segment once they are in, known ones among them.
    renew : callable, optional
        Takes a new identity when another tablet wrote under this one's; called before
        the entries of the other come in. The caller must write into the new stream only.
    """

    where: str
    ring: KeyRing = field(default_factory=MemoryKeyRing)
    own_stream: str = ""
    at_ms: int = 0
    allow_less: bool = False
    over_gaps: bool = False
    proves_all: bool = False
    sends: bool = True
    remembers: bool = True
    photos: PhotoChoice = PhotoChoice.ALL
    thumbnail: Thumbnail | None = None
    on_step: OnStep | None = None
    is_cancelled: Callable[[], bool] | None = None
    on_rows: OnRows | None = None
    renew: Callable[[], None] | None = None


@dataclass(slots=True)
class ExchangeReport:
    """Report of an exchange: what it did, and what is left to do."""

    job: Job
    members: Members | None = None
    fetched: int = 0  # segments that came
    new_rows: int = 0  # entries that were new here
    sealed_rows: int = 0  # entries of this tablet that went into new segments
    out: SendResult = field(
        default_factory=SendResult
    )  # what went out, true also of one that was cut
    unsigned: list[UnsignedEntries] = field(default_factory=list)  # what waits for its tablet's key
    pictures: PhotoResult = field(default_factory=PhotoResult)
    aside: tuple[RejectedSegment, ...] = ()
    notes: list[str] = field(default_factory=list)
    strange: int = 0  # files in the job's folder with names that are not ours
    cut: str = ""  # why it ended early; "" if it came to its end
    is_cancelled: bool = False
    was_identity_used: bool = False

    @property
    def is_complete(self) -> bool:
        """Whether the exchange came to its end and everything is where it should be."""
        is_left = self.aside or self.notes or self.unsigned
        return not (self.cut or self.is_cancelled or is_left)

    @property
    def unsigned_rows(self) -> int:
        """Entries that wait for the key of the tablet that wrote them."""
        return sum(one.missing for one in self.unsigned)

    @property
    def to_send(self) -> int:
        """Entries that the store lacked, those that nobody here can sign for among them."""
        return self.out.to_send + self.unsigned_rows

    def count_segment(self) -> None:
        """Count one more segment that came."""
        self.fetched += 1

    def add_retry(self, second: ExchangeReport) -> None:
        """Add what a second look at the same store did, right after this one."""
        self.fetched += second.fetched
        self.new_rows += second.new_rows
        self.sealed_rows += second.sealed_rows
        self.out.files += second.out.files
        self.out.names += second.out.names
        self.out.rows += second.out.rows
        self.out.to_send += second.out.to_send
        self.pictures.came += second.pictures.came
        self.pictures.sent += second.pictures.sent
        self.pictures.awaited = second.pictures.awaited
        self.aside, self.members, self.unsigned = second.aside, second.members, second.unsigned
        self.notes += [note for note in second.notes if note not in self.notes]
        self.cut, self.is_cancelled = second.cut, second.is_cancelled
