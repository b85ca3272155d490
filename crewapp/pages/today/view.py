"""What the Today screen shows."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from crewapp.commands.query import Query


@dataclass(frozen=True, slots=True)
class GroundRow:
    """One surface or collector: what is done of it and how it stands."""

    key: str
    name: str
    done: str
    planned: str
    permille: int
    status: str


@dataclass(frozen=True, slots=True)
class Standing:
    """One thing to know in the morning: its name, how it stands, in words."""

    name: str
    text: str
    status: str
    leads_to: str = ""


@dataclass(frozen=True, slots=True)
class TodayFace:
    """The whole screen; ``is_live`` is False while it shows what was last known."""

    job: str = ""
    day: str = ""
    day_words: str = ""
    next_title: str = ""
    next_detail: str = ""
    next_tab: str = "jobs"
    ground: tuple[GroundRow, ...] = ()
    standing: tuple[Standing, ...] = ()
    open_flags: int = 0
    is_closed: bool = False
    is_live: bool = True
    exchange: str = ""  # what waits for the others, and when last exchanged

    def to_plain(self) -> dict[str, Any]:
        """Return it as it is kept for the next start."""
        return asdict(self)


def face_from_plain(told: dict[str, Any]) -> TodayFace:
    """Return the face kept at the last look, marked as not live.

    What can't be read gives an empty face: it is a cache, never a record.
    """
    try:
        ground = tuple(GroundRow(**row) for row in told["ground"])
        standing = tuple(Standing(**row) for row in told["standing"])
        return TodayFace(**{**told, "ground": ground, "standing": standing, "is_live": False})
    except (KeyError, TypeError):
        return TodayFace(is_live=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowToday(Query[TodayFace]):
    """What the Today page shows; ``store`` is where the tablet sends its entries."""

    store: str = ""
