"""Instants and their wall time, within the years that an entry may carry.

The bounds are those of the format (sync/FORMAT.md, part 3.4): 1970 to the end of 2199. What
lies outside them is never worked with: it is shown as no time, so nothing can overflow.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from functools import lru_cache

FIRST_MS, LAST_MS = 0, 7_258_118_399_999
"""First and last instant that an entry may carry, in ms since 1970: the end of 2199."""
FURTHEST_OFFSET_MIN = 1080
"""Furthest that local time may lie from UTC, either way."""
FIRST_DAY, LAST_DAY = "1970-01-01", "2199-12-31"
NO_TIME = "(no time)"
_MINUTE_MS = 60_000
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def is_time(at_ms: int, offset_min: int) -> bool:
    """Whether an instant and its local time lie within the bounds."""
    return (
        FIRST_MS <= at_ms <= LAST_MS
        and -FURTHEST_OFFSET_MIN <= offset_min <= FURTHEST_OFFSET_MIN
        and FIRST_MS <= at_ms + offset_min * _MINUTE_MS <= LAST_MS
    )


@lru_cache(maxsize=1024)
def is_day(text: str) -> bool:
    """Whether a text is a day of the calendar within the bounds, as YYYY-MM-DD."""
    try:
        return FIRST_DAY <= text <= LAST_DAY and date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def local_moment(at_ms: int, offset_min: int) -> datetime | None:
    """Return the wall time of an instant; None outside the bounds."""
    if not is_time(at_ms, offset_min):
        return None
    return _EPOCH + timedelta(milliseconds=at_ms, minutes=offset_min)


def local_time(at_ms: int, offset_min: int, form: str = "%Y-%m-%d %H:%M") -> str:
    """Write the wall time of an instant; "(no time)" outside the bounds.

    Examples
    --------
    >>> local_time(1_778_500_800_000, -300)
    '2026-05-11 07:00'
    >>> local_time(253_402_300_799_999, 60)
    '(no time)'
    """
    moment = local_moment(at_ms, offset_min)
    return NO_TIME if moment is None else moment.strftime(form)


def nearest_time(at_ms: int, offset_min: int = 0) -> tuple[int, int]:
    """Return the nearest instant within the bounds, with an offset that keeps its local time so.

    Examples
    --------
    >>> nearest_time(-5, 60)
    (0, 60)
    >>> nearest_time(0, -300)
    (18000000, -300)
    """
    offset_min = max(-FURTHEST_OFFSET_MIN, min(FURTHEST_OFFSET_MIN, offset_min))
    shift = offset_min * _MINUTE_MS
    first, last = max(FIRST_MS, FIRST_MS - shift), min(LAST_MS, LAST_MS - shift)
    return max(first, min(last, at_ms)), offset_min


def utc_moment(at_ms: int) -> datetime:
    """Return an instant in UTC, the nearest within the bounds."""
    return _EPOCH + timedelta(milliseconds=nearest_time(at_ms)[0])
