"""Days as a crew says them, in one form: the weekday first, the year last."""

from __future__ import annotations

from datetime import date

from crewapp.words.translate import say, translate_later

_WEEKDAYS = (
    translate_later("Mon"),
    translate_later("Tue"),
    translate_later("Wed"),
    translate_later("Thu"),
    translate_later("Fri"),
    translate_later("Sat"),
    translate_later("Sun"),
)
_MONTHS = (
    translate_later("Jan"),
    translate_later("Feb"),
    translate_later("Mar"),
    translate_later("Apr"),
    translate_later("May"),
    translate_later("Jun"),
    translate_later("Jul"),
    translate_later("Aug"),
    translate_later("Sep"),
    translate_later("Oct"),
    translate_later("Nov"),
    translate_later("Dec"),
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
