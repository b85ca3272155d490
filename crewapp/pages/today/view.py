"""Views of the Today screen."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from crewapp.commands.query import Query


@dataclass(frozen=True, slots=True)
class GroundRow:
    """Surface or collector: how much of it is done and how it stands."""

    key: str
    name: str
    done: str
    planned: str
    permille: int
    status: str


@dataclass(frozen=True, slots=True)
class ReadinessRow:
    """Thing to know in the morning: its name, how it stands, in words."""

    name: str
    text: str
    status: str
    leads_to: str = ""


@dataclass(frozen=True, slots=True)
class TodayView:
    """The whole screen; ``is_live`` is False while it shows what was last known."""

    job: str = ""
    day: str = ""
    day_words: str = ""
    next_title: str = ""
    next_detail: str = ""
    next_tab: str = "jobs"
    ground: tuple[GroundRow, ...] = ()
    standing: tuple[ReadinessRow, ...] = ()
    open_flags: int = 0
    is_closed: bool = False
    is_live: bool = True
    exchange: str = ""  # what waits for the others, and when last exchanged

    def to_plain(self) -> dict[str, Any]:
        """Return it as it is kept for the next start."""
        return asdict(self)


def view_from_plain(told: dict[str, Any]) -> TodayView:
    """Return the view kept at the last look, marked as not live.

    What can't be read gives an empty view: it is a cache, never a record.
    """
    try:
        ground = tuple(GroundRow(**row) for row in told["ground"])
        standing = tuple(ReadinessRow(**row) for row in told["standing"])
        return TodayView(**{**told, "ground": ground, "standing": standing, "is_live": False})
    except (KeyError, TypeError):
        return TodayView(is_live=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowToday(Query[TodayView]):
    """Query for what the Today page shows; ``store`` is where the tablet sends its entries."""

    store: str = ""
