"""Cells that rows of after the job need: moments, the readings of a ring, amounts with a unit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from crewapp.imports.notes.cells import CellError, Reader, iso_day
from models.errors import UnreadableError
from models.units import parse_time_of_day
from models.units.job_units import Figures

_READING_FORMS = "minutes and level, parted by semicolons, such as 0 4; 10 3-7/8 up to 4; 20 3-3/4"
_READING = re.compile(
    r"(?P<min>\d{1,5})(?::(?P<s>[0-5]\d))?\s+(?P<level>.+?)(?:\s+up\s+to\s+(?P<up>.+))?", re.I
)
_MOMENT_FORMS = "a time such as 5:35 or 17:20, with another day before it as 2026-05-10 23:30"


@dataclass(frozen=True, slots=True)
class WallTime:
    """A time as the clock on the wall showed it; without a day it is the row's own."""

    column: str
    minutes: int
    day: str = ""

    def at_ms(self, day: str, zone: str) -> int:
        """Return the instant it was, on a day in a zone.

        An hour that comes twice is the first of the two.

        Raises
        ------
        CellError
            If the clocks were put forward over it, so that it never was.
        """
        wall = datetime.fromisoformat(self.day or day) + timedelta(minutes=self.minutes)
        at = wall.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)
        if at.astimezone(ZoneInfo(zone)).replace(tzinfo=None) != wall:
            raise CellError("never was: the clocks were put forward over it", _MOMENT_FORMS)
        return int(at.timestamp()) * 1000


def moment(field: str, column: str) -> Reader:
    """Read a time of day, with a day before it where it was not the row's."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        found = re.fullmatch(r"(?:(\d{4}-\d{2}-\d{2})[T ]\s*)?(.+)", typed.strip())
        day, time = found.groups() if found else (None, typed)
        return {field: WallTime(column, parse_time_of_day(time), iso_day(day) if day else "")}

    return read


def settle_times(
    fields: dict[str, Any], day: str, zone: str
) -> Iterator[tuple[str, int | CellError, str]]:
    """Give each field that holds a time on the wall, with its instant or why there is none."""
    for name, value in fields.items():
        if isinstance(value, WallTime):
            try:
                yield name, value.at_ms(day, zone), value.column
            except CellError as fault:
                yield name, fault, value.column


def ring_readings(field: str) -> Reader:
    """Readings of a ring: minutes since it was filled, the level, and what it was filled up to."""

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        parts = [part.strip() for part in typed.split(";") if part.strip()]
        readings = [_reading(part, figures) for part in parts]
        times = [one["after_s"] for one in readings]
        if len(readings) < 2:
            raise CellError("holds fewer than two readings", _READING_FORMS)
        if any(late <= early for early, late in zip(times, times[1:], strict=False)):
            raise CellError("does not go on in time, reading by reading", _READING_FORMS)
        return {field: tuple(readings)}

    return read


def _reading(part: str, figures: Figures) -> dict[str, Any]:
    found = _READING.fullmatch(part)
    if found is None:
        raise CellError(f"has no minutes and level in {part!r}", _READING_FORMS)
    level = found["level"].strip()
    try:
        reading: dict[str, Any] = {
            "after_s": int(found["min"]) * 60 + int(found["s"] or 0),
            "level_nm": figures.read_depth(level),
            "level_typed": level,
        }
        if found["up"]:
            reading["refilled_to_nm"] = figures.read_depth(found["up"])
    except UnreadableError as fault:
        why = f"has a level that can't be read in {part!r}: {fault.context['why']}"
        raise CellError(why, _READING_FORMS) from None
    return reading


def with_unit(reader: Reader, forms: str) -> Reader:
    """Refuse a bare number where one unit is as likely as another."""

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        if not any(letter.isalpha() for letter in typed):
            raise CellError("has no unit", forms)
        return reader(typed, figures)

    return read
