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
    """Say a day in the language set: ``Wed, May 13``. What is no day is shown as it is."""
    try:
        day = date.fromisoformat(iso)
    except ValueError:
        return iso
    return say(
        "{weekday}, {month} {number}",
        weekday=say(_WEEKDAYS[day.weekday()]),
        month=say(_MONTHS[day.month - 1]),
        number=day.day,
    )
