"""Times of day as they are typed, and the instants they were, in the job's zone."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from models.units.times import utc_moment

DAY_MIN = 24 * 60


def wall_time_of(at_ms: int, zone: str) -> tuple[str, int]:
    """Return the day and the minutes after midnight that a clock on the wall showed."""
    local = utc_moment(at_ms).astimezone(ZoneInfo(zone))
    return local.date().isoformat(), local.hour * 60 + local.minute


def instant_of(day: str, minutes: int, zone: str) -> int:
    """Return the instant, in ms, at which a clock on the wall showed a time of a day.

    Of an hour that comes twice it is the first; one that never came counts from the
    time before the clocks were put forward.
    """
    wall = datetime.fromisoformat(day) + timedelta(minutes=minutes)
    return int(wall.replace(tzinfo=ZoneInfo(zone)).timestamp()) * 1000


def last_instant_at(minutes: int, zone: str, until_ms: int) -> int:
    """Return the last instant at which the wall showed a time, not after another instant."""
    day, _ = wall_time_of(until_ms, zone)
    found = instant_of(day, minutes, zone)
    if found <= until_ms:
        return found
    before = (date.fromisoformat(day) - timedelta(1)).isoformat()
    return instant_of(before, minutes, zone)
