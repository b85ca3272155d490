"""Clock of the tablet: what time it is, in which zone, and which day that makes it."""

from __future__ import annotations

import time
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Protocol
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from models.units.times import local_time, nearest_time, utc_moment


@dataclass(frozen=True, slots=True)
class Moment:
    """Instant with the local time it was there."""

    at_ms: int
    offset_min: int
    zone: str
    day: str


class Clock(Protocol):
    """Gives the present moment."""

    def now(self) -> Moment:
        """Return this instant with its zone."""


def moment_in(zone: str, at_ms: int) -> Moment:
    """Return the moment that an instant is in a zone; UTC if the zone is not known.

    Of a clock outside the years that an entry may carry, 1970 to 2199, it is the nearest
    instant within.
    """
    try:
        place: ZoneInfo | None = ZoneInfo(zone)
    except (ZoneInfoNotFoundError, ValueError):
        zone, place = "UTC", None
    offset = utc_moment(at_ms).astimezone(place or UTC).utcoffset() or timedelta()
    at_ms, offset_min = nearest_time(at_ms, int(offset.total_seconds() // 60))
    return Moment(at_ms, offset_min, zone, local_time(at_ms, offset_min, "%Y-%m-%d"))


@dataclass(frozen=True, slots=True)
class TabletClock:
    """The tablet's own clock, in the job's zone."""

    zone: str = "UTC"

    def now(self) -> Moment:
        """Return this instant by the tablet's clock."""
        return moment_in(self.zone, time.time_ns() // 1_000_000)


class SetClock:
    """A clock that stands where it is put: for invented days and for tests."""

    def __init__(self, zone: str, at_ms: int) -> None:
        self.zone = zone
        self.at_ms = at_ms

    def now(self) -> Moment:
        """Return the instant it stands at."""
        return moment_in(self.zone, self.at_ms)

    def set_to(self, day: str, minutes: int) -> None:
        """Set it to a local day and minutes after midnight."""
        place = ZoneInfo(self.zone)
        local = datetime.fromisoformat(day).replace(tzinfo=place) + timedelta(minutes=minutes)
        self.at_ms = int(local.timestamp() * 1000)

    def pass_seconds(self, seconds: int) -> None:
        """Let time go by."""
        self.at_ms += seconds * 1000
