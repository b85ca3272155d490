"""What the Day screen shows. No Kivy and no pydantic, so it can be tested without a window."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from models.figures import Figures

LONGEST_IN_LIST = 110


def short(text: str, most: int = LONGEST_IN_LIST) -> str:
    """Return a text cut at a word where it is too long for a list, with dots."""
    if len(text) <= most:
        return text
    head = text[: most - 3].rsplit(" ", 1)[0]
    return f"{head[: most - 4]} ..."


@dataclass(frozen=True, slots=True)
class DayRow:
    """One row of a list: what it leads to, what it says, and how it stands."""

    key: str
    title: str
    detail: str = ""
    figure: str = ""
    status: str = ""
    is_struck: bool = False

    def to_row(self) -> dict[str, Any]:
        """Return the row as the list takes it."""
        return {
            "key": self.key,
            "title": self.title,
            "detail": self.detail,
            "figure": self.figure,
            "status": self.status,
            "is_struck": self.is_struck,
        }


@dataclass(frozen=True, slots=True)
class Worker:
    """A person or a machine, and the hours that stand for the day."""

    of: str
    who: str
    name: str
    hours: str = ""
    entry_id: str = ""


@dataclass(frozen=True, slots=True)
class Named:
    """A surface, a collector or a person, by its short name and in full."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class WrittenRow:
    """One entry of the day: what it says, and what may be done about it."""

    entry_id: str
    kind: str
    said: str
    detail: str
    is_struck: bool = False
    can_strike: bool = True


@dataclass(frozen=True, slots=True)
class DayFace:
    """The day as it stands: what was logged, what is missing, what stands open.

    ``day`` is the day looked at, ``today`` the clock's; only today is written on.
    ``missing`` says where it is logged and what a day usually has but this one lacks; ``stops`` and
    ``open`` count flags.
    """

    figures: Figures = field(default_factory=Figures)
    has_job: bool = False
    day: str = ""
    today: str = ""
    now_ms: int = 0
    is_closed: bool = False
    author: str = ""
    owner: str = ""
    workers: tuple[Worker, ...] = ()
    people: tuple[Named, ...] = ()
    places: tuple[Named, ...] = ()
    counts: dict[str, int] = field(default_factory=dict)
    last: dict[str, str] = field(default_factory=dict)
    tickets: tuple[DayRow, ...] = ()
    ticket_status: str = ""
    written: tuple[WrittenRow, ...] = ()
    open_flags: tuple[DayRow, ...] = ()
    stops: int = 0
    missing: tuple[tuple[str, str], ...] = ()
    signatures: tuple[DayRow, ...] = ()
    days: tuple[DayRow, ...] = ()
    sheet: tuple[DayRow, ...] = ()
    sheet_title: str = ""
    is_all_cut: bool = False

    @property
    def is_today(self) -> bool:
        """Whether the day looked at is the clock's."""
        return self.day == self.today

    def worker(self, of: str, who: str) -> Worker | None:
        """Return a person or a machine by its short name."""
        return next((one for one in self.workers if (one.of, one.who) == (of, who)), None)

    def entry(self, entry_id: str) -> WrittenRow | None:
        """Return an entry of the day."""
        return next((one for one in self.written if one.entry_id == entry_id), None)
