"""Views of the Exchange page: the store, unsent entries, tablets, rejected entries."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TabletRow:
    """Tablet of the job's list."""

    code: str
    name: str
    detail: str
    is_own: bool = False
    is_off: bool = False


@dataclass(frozen=True, slots=True)
class RejectedRow:
    """Entries that are not in the book: whose, why, and what would let them in."""

    title: str
    why: str
    is_waiting: bool
    is_gap: bool = False


@dataclass(frozen=True, slots=True)
class ExchangeView:
    """How things stand with the others; ``job`` is "" where none is open."""

    own_code: str = ""
    where: str = ""
    has_secret: bool = False  # whether a password for it is kept on this tablet
    job: str = ""
    day: str = ""
    read_only: str = ""
    unsent_entries: int = 0
    unsent_pictures: int = 0
    last: str = ""  # when last exchanged, in words; "" if never
    may_write: bool = True
    is_renewed: bool = False  # the tablet's old code is on the list, the new one not yet
    is_open: bool = False  # anybody may write: the invented job
    tablets: tuple[TabletRow, ...] = ()
    aside: tuple[RejectedRow, ...] = ()
    handed: tuple[str, ...] = ()  # hand-over files in the inbox
    inbox: str = ""
    is_us: bool = True  # how the job writes its days
    folders: tuple[str, ...] = ()  # sticks and shares met on this tablet

    @property
    def has_gap(self) -> bool:
        """Whether something waits only for entries before it."""
        return any(row.is_gap for row in self.aside)


@dataclass(frozen=True, slots=True)
class StoreJob:
    """Job that lies in a store."""

    key: str
    name: str
    files: int
    size: int  # [bytes]
    here: str = ""  # the book of it that is on this tablet already


@dataclass(frozen=True, slots=True)
class TransferResult:
    """Result of an exchange, a joining or a hand-over, in words for the page.

    ``kind`` is "whole", "cut", "stopped", "less", "host", "refused", "found", "joined" or "made".
    """

    kind: str
    sentences: tuple[str, ...] = ()
    came: int = 0
    came_from: tuple[str, ...] = ()
    open_flags: int = 0
    path: str = ""
    jobs: tuple[StoreJob, ...] = ()


STEPS = {
    "list": 1,
    "fetch": 2,
    "seal": 3,
    "open": 4,
    "merge": 5,
    "send": 6,
    "thumbs": 7,
    "photos": 8,
}
"""Steps of an exchange in their order."""


def share_done(step: str, done: int, total: int) -> float:
    """Return how much of an exchange is behind us, from 0 to 1; steps count alike."""
    if step not in STEPS:
        return done / total if total else 0.0
    within = min(done / total, 1.0) if total else 0.0
    return (STEPS[step] - 1 + within) / len(STEPS)
