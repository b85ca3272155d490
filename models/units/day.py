"""Days of a job as they are typed or stand in a file: from 2000 to 2100."""

from __future__ import annotations

import re
from datetime import date
from typing import NoReturn

from models.errors import UnreadableError
from models.units.clean_text import LONGEST_TEXT

FIRST_YEAR, LAST_YEAR = 2000, 2100
"""What is typed outside them is a slip. A clock that runs wrong is another matter: it is kept."""

DAY_FORMS = f"a day as 2026-05-11, in the years {FIRST_YEAR} to {LAST_YEAR}"
_WRITTEN = re.compile(r"\d{4}-\d{2}-\d{2}|\d{8}", re.ASCII)


def parse_day(text: str) -> str:
    """Read a day of the calendar; return it as YYYY-MM-DD.

    Raises
    ------
    UnreadableError
        If no calendar has it, or its year is before 2000 or after 2100.

    Examples
    --------
    >>> parse_day(" 2026-05-11 ")
    '2026-05-11'
    """
    typed = text.strip()
    try:
        day = date.fromisoformat(typed if _WRITTEN.fullmatch(typed) else "")
    except ValueError:
        _refuse(text, "is not a day")
    if not is_day_of_a_job(day):
        _refuse(text, f"lies before {FIRST_YEAR}" if day.year < FIRST_YEAR else _AFTER)
    return day.isoformat()


def is_day_of_a_job(day: date) -> bool:
    """Whether a day lies in the years in which it may be typed."""
    return FIRST_YEAR <= day.year <= LAST_YEAR


_AFTER = f"lies after {LAST_YEAR}"


def _refuse(text: str, why: str) -> NoReturn:
    shown = text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "..."
    raise UnreadableError(text=shown, what="a day", why=why, place=1, forms=DAY_FORMS)
