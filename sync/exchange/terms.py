"""What an exchange is asked, and what it answers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum

from sync.exchange.ledger import SetAside
from sync.exchange.merging import OnRows
from sync.exchange.pictures import Pictures, Thumbnail
from sync.exchange.steps import OnStep
from sync.trust.keys import HeldKeys, KeyRing
from sync.trust.members import Job, Members


class Photos(Enum):
    """Which pictures travel."""

    ALL = "all"
    SMALL = "small"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
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
        Told ``(step, done, total)``; steps are in ``sync.exchange.steps.STEPS``.
    is_cancelled : callable, optional
        Asked before every piece of work.
    on_rows : callable, optional
        Given the rows of each segment once they are in, known ones among them.
    renew : callable, optional
        Takes a new identity when another tablet wrote under this one's; called before
        the entries of the other come in. The caller must write into the new stream only.
    """

    where: str
    ring: KeyRing = field(default_factory=HeldKeys)
    own_stream: str = ""
    at_ms: int = 0
    allow_less: bool = False
    over_gaps: bool = False
    proves_all: bool = False
    sends: bool = True
    remembers: bool = True
    photos: Photos = Photos.ALL
    thumbnail: Thumbnail | None = None
    on_step: OnStep | None = None
    is_cancelled: Callable[[], bool] | None = None
    on_rows: OnRows | None = None
    renew: Callable[[], None] | None = None


@dataclass(slots=True)
class Report:
    """What an exchange did, and what is left to do."""

    job: Job
    members: Members | None = None
    fetched: int = 0  # segments that came
    new_rows: int = 0  # entries that were new here
    sealed_rows: int = 0  # entries of this tablet that went into new segments
    sent: int = 0  # segments that went out
    sent_names: list[str] = field(default_factory=list)
    pictures: Pictures = field(default_factory=Pictures)
    aside: tuple[SetAside, ...] = ()
    notes: list[str] = field(default_factory=list)
    strange: int = 0  # files in the job's folder with names that are not ours
    cut: str = ""  # why it ended early; "" if it came to its end
    is_cancelled: bool = False
    was_identity_used: bool = False

    @property
    def is_whole(self) -> bool:
        """Whether it came to its end and everything is where it should be."""
        return not (self.cut or self.is_cancelled or self.aside or self.notes)
