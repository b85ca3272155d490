"""Days as a crew says them: the weekday first."""

from __future__ import annotations

from datetime import date

from crewapp.wording import later, say

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


def shown_day(iso: str) -> str:
    """Say a day of this year in the language set: ``Wed May 13``. No day is shown as it is."""
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    return say("{weekday} {month} {number}", **_parts(day))


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


def _parts(day: date) -> dict[str, object]:
    """The words and figures of a day."""
    weekday, month = say(_WEEKDAYS[day.weekday()]), say(_MONTHS[day.month - 1])
    return {"weekday": weekday, "month": month, "number": day.day}
