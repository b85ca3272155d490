"""Times of day and durations in whole minutes, and plain counts."""

from __future__ import annotations

import re
from enum import StrEnum

from models.units.clean_text import TypedText
from models.units.number_text import NUMBER, read_decimal, refuse_unread

LONGEST_MIN = 31 * 24 * 60
"""A month; a longer duration is a slip of the thumb."""
LARGEST_COUNT = 1_000_000_000

_DAY_MIN = 24 * 60
_COUNT = re.compile(r"\d+")
_TIME = re.compile(
    r"(?P<hour>\d{1,2})(?::(?P<colon>\d{2})|(?P<plain>\d{2}))?"
    r" *(?P<half>a\.?m?\.?|p\.?m?\.?)?"
)
_SPAN = re.compile(r"(?P<hours>\d+):(?P<minutes>\d{2})")
_PARTS = re.compile(
    rf"(?:(?P<hours>{NUMBER}) *(?:hours|hour|hrs|hr|h)\.?)? *"
    rf"(?:(?P<minutes>{NUMBER}) *(?P<min>(?:minutes|minute|mins|min|m)\.?)?)?"
)
_NO_SIGN = (re.compile(r"^(-)"), "a minus sign is not used here")
_NO_FRACTION = (re.compile(r"\d(/)\d"), "a fraction is not read here")
_COUNT_FAULTS = (_NO_SIGN, _NO_FRACTION, (re.compile(r"\d(\.)"), "a count has no point"))
_CLOCK_FAULTS = (
    _NO_SIGN,
    _NO_FRACTION,
    (re.compile(r"\d:\d\d(:)"), "seconds are not read"),
    (re.compile(r":(\d)(?!\d)"), "minutes after a colon take two figures"),
)
_TIME_FAULTS = (
    *_CLOCK_FAULTS,
    (re.compile(r"\d(\.)\d"), "hours and minutes are parted by a colon"),
)


class ClockUnit(StrEnum):
    """Unit that a bare number of a duration is in."""

    MIN = "min"
    H = "h"


def parse_count(text: str) -> int:
    """Read a count of things: digits only.

    Raises
    ------
    UnreadableError
        If it is not a whole number from 0 to a thousand million.
    """
    typed = TypedText(text, "a count", ("0", "3", "12"))
    if not _COUNT.fullmatch(typed.text):
        refuse_unread(typed, _COUNT_FAULTS)
    count = int(typed.text)
    if count > LARGEST_COUNT:
        typed.refuse("nothing is counted that high", 0)
    return count


def parse_time_of_day(text: str) -> int:
    """Read a time of day as minutes from midnight; without am or pm it is the 24-hour clock.

    Raises
    ------
    UnreadableError
        If it is not a time; a lone hour needs am or pm.

    Examples
    --------
    >>> parse_time_of_day("7:05"), parse_time_of_day("0705"), parse_time_of_day("12:30 am")
    (425, 425, 30)
    """
    typed = TypedText(text, "a time of day", ("7:05", "0705", "7:05 am"))
    found = _TIME.fullmatch(typed.text)
    if not found:
        refuse_unread(typed, _TIME_FAULTS)
    hour, half = int(found["hour"]), found["half"]
    group = "colon" if found["colon"] else "plain"
    if not (found[group] or half):
        typed.refuse("the minutes are missing", found.end("hour"))
    minute = int(found[group] or 0)
    if minute > 59:
        typed.refuse("minutes go to 59", found.start(group))
    if half and not 1 <= hour <= 12:
        typed.refuse("with am or pm the hour goes from 1 to 12", 0)
    if hour > 23:
        typed.refuse("hours go to 23", 0)
    if half:
        hour = hour % 12 + (12 if half.startswith("p") else 0)
    return hour * 60 + minute


def show_time_of_day(minutes: int, *, halves: bool = False) -> str:
    """Write minutes from midnight as 24-hour clock, or with am and pm; a next day starts over.

    Examples
    --------
    >>> show_time_of_day(425), show_time_of_day(770, halves=True)
    ('07:05', '12:50 pm')
    """
    hour, minute = divmod(minutes % _DAY_MIN, 60)
    if halves:
        return f"{(hour - 1) % 12 + 1}:{minute:02d} {'am' if hour < 12 else 'pm'}"
    return f"{hour:02d}:{minute:02d}"


def parse_duration(text: str, *, bare: ClockUnit = ClockUnit.MIN) -> int:
    """Read a duration in whole minutes; a bare number is in ``bare``, ``1:15`` in h and min.

    Raises
    ------
    UnreadableError
        If it is not a duration of whole minutes, or longer than a month.

    Examples
    --------
    >>> parse_duration("1:15"), parse_duration("1.5 h"), parse_duration("1 h 15 min")
    (75, 90, 75)
    """
    typed = TypedText(text, "a duration", ("45 min", "1:15", "1.5 h"))
    if span := _SPAN.fullmatch(typed.text):
        total = int(span["hours"]) * 60 + _below_an_hour(typed, span)
    elif found := _PARTS.fullmatch(typed.text):
        total = _total_min(typed, found, bare)
    else:
        refuse_unread(typed, _CLOCK_FAULTS)
    if total > LONGEST_MIN:
        typed.refuse("it is longer than a month", 0)
    return total


def _total_min(typed: TypedText, found: re.Match[str], bare: ClockUnit) -> int:
    """Minutes of hours, of minutes, or of both."""
    if not found["hours"]:
        is_hours = bare is ClockUnit.H and not found["min"]
        return _whole_min(typed, found, "minutes", 60 if is_hours else 1)
    if not found["minutes"]:
        return _whole_min(typed, found, "hours", 60)
    if "." in found["hours"]:
        typed.refuse("hours must be whole when minutes follow", found.start("hours"))
    return int(found["hours"]) * 60 + _below_an_hour(typed, found)


def _below_an_hour(typed: TypedText, found: re.Match[str]) -> int:
    """Minutes that follow hours."""
    minutes = _whole_min(typed, found, "minutes", 1)
    if minutes > 59:
        typed.refuse("after hours the minutes go to 59", found.start("minutes"))
    return minutes


def _whole_min(typed: TypedText, found: re.Match[str], group: str, per: int) -> int:
    """Minutes of the decimal in a group."""
    count, scale = read_decimal(found[group])
    whole, rest = divmod(count * per, scale)
    if rest:
        typed.refuse("it is not a whole number of minutes", found.start(group))
    return whole


def show_duration(minutes: int) -> str:
    """Write minutes as hours and minutes.

    Examples
    --------
    >>> show_duration(75), show_duration(45), show_duration(120)
    ('1 h 15 min', '45 min', '2 h')
    """
    hours, rest = divmod(abs(minutes), 60)
    parts = ([f"{hours} h"] if hours else []) + ([f"{rest} min"] if rest or not hours else [])
    return ("-" if minutes < 0 else "") + " ".join(parts)
