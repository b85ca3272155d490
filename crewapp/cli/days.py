"""Days as they are named on the command line."""

from __future__ import annotations

from crewapp.handlers.plan.plan_entries import PLAN_KINDS
from crewapp.imports.notes.cells import CellError, iso_day
from models.entries.bounds import UNREADABLE
from models.errors import CrewError
from models.state.job_state import JobState


class DayUnreadableError(CrewError, ValueError):
    """A day was named that no calendar has."""

    code = "commands.day_unreadable"
    sentence = "Cannot read {text!r} as a day: it {why}. Accepted: {forms}."


class DayUnknownError(CrewError, LookupError):
    """A day was named on which nothing was written."""

    code = "commands.day_unknown"
    sentence = "Nothing was written in this book on {day}. Its days are: {days}."


def read_day(text: str) -> str:
    """Read a day as YYYY-MM-DD.

    Raises
    ------
    DayUnreadableError
        If it is no day.
    """
    try:
        return iso_day(text)
    except CellError as fault:
        raise DayUnreadableError(text=text[:40], why=str(fault), forms=fault.forms) from fault


def find_day(state: JobState, text: str | None) -> str:
    """Return the day that was named, or the last one worked.

    Raises
    ------
    DayUnreadableError, DayUnknownError
        If it is no day, or no day of this book.
    """
    if text is not None:
        day = read_day(text)
        if day not in state.days:
            raise DayUnknownError(day=day, days=_told(state))
        return day
    worked = [day for day in state.days if _is_worked(state, day)] or list(state.days)
    if not worked:
        raise DayUnknownError(day="any day", days="none yet")
    return max(worked)


def _is_worked(state: JobState, day: str) -> bool:
    return any(
        entry.kind not in PLAN_KINDS for entry in state.days[day] if entry.unfit not in UNREADABLE
    )


def _told(state: JobState) -> str:
    return ", ".join(sorted(state.days)) or "none yet"
