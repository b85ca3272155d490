"""Days as a crew says them, in one form: the weekday first, the year last."""

from __future__ import annotations

from datetime import date

from crewapp.words.translate import later, say

_WEEKDAYS = (
    later("Mon"),
    later("Tue"),
    later("Wed"),
    later("Thu"),
    later("Fri"),
    later("Sat"),
    later("Sun"),
)
_MONTHS = (
    later("Jan"),
    later("Feb"),
    later("Mar"),
    later("Apr"),
    later("May"),
    later("Jun"),
    later("Jul"),
    later("Aug"),
    later("Sep"),
    later("Oct"),
    later("Nov"),
    later("Dec"),
)


def full_day(iso: str, is_us: bool = True) -> str:
    """Say a day with its year: ``Wed May 13, 2026``, or ``Wed 13 May 2026`` on a metric job.

    As on paper, in the language set. What is no day is shown as it is.
    """
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    if is_us:
        return say("{weekday} {month} {number}, {year}", **_parts(day), year=day.year)
    return say("{weekday} {number} {month} {year}", **_parts(day), year=day.year)


def without_year(iso: str) -> str:
    """Say a day near today where there is no room for its year, which nobody is in doubt of.

    ``Wed May 13``; what is no day is shown as it is.
    """
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    return say("{weekday} {month} {number}", **_parts(day))


def day_and_time(iso: str, time: str, is_us: bool = True) -> str:
    """Say a day and a time of it: ``Wed May 13, 2026 10:38``."""
    return say("{day} {time}", day=full_day(iso, is_us), time=time)


def _parts(day: date) -> dict[str, object]:
    """The words and figures of a day."""
    weekday, month = say(_WEEKDAYS[day.weekday()]), say(_MONTHS[day.month - 1])
    return {"weekday": weekday, "month": month, "number": day.day}
