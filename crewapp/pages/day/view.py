"""Views of the Day screen. No Kivy and no pydantic, so they are tested without a window."""

from __future__ import annotations

from dataclasses import dataclass, field

from crewapp.commands.query import Query
from crewapp.kit.input.list_rows import DayRow, NamedItem
from models.units.job_units import Figures


@dataclass(frozen=True, slots=True)
class Worker:
    """A person or a machine, and the hours that stand for the day."""

    of: str
    who: str
    name: str
    hours: str = ""
    entry_id: str = ""


@dataclass(frozen=True, slots=True)
class EntryRow:
    """Entry of the day: what it says, and what may be done about it."""

    entry_id: str
    kind: str
    said: str
    detail: str
    is_struck: bool = False
    can_strike: bool = True


@dataclass(frozen=True, slots=True)
class DayView:
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
    people: tuple[NamedItem, ...] = ()
    places: tuple[NamedItem, ...] = ()
    counts: dict[str, int] = field(default_factory=dict)
    last: dict[str, str] = field(default_factory=dict)
    tickets: tuple[DayRow, ...] = ()
    ticket_status: str = ""
    written: tuple[EntryRow, ...] = ()
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

    def entry(self, entry_id: str) -> EntryRow | None:
        """Return an entry of the day."""
        return next((one for one in self.written if one.entry_id == entry_id), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowDay(Query[DayView]):
    """Query for what the Day page shows of a day: today, unless one is named."""

    day: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadClock(Query[int]):
    """The time on the tablet's clock: milliseconds, as entries carry them."""
