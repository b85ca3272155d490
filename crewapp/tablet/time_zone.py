"""The zone that the tablet is in, by its name, for a job that is started on it."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

_LINK = Path("/etc/localtime")
_HOUR_MIN = 60


def tablet_zone() -> str:
    """Return the zone's name; where the system tells none, the one of its offset now.

    An offset that is no whole number of hours has no such name and gives UTC.
    """
    for name in (os.environ.get("TZ", "").lstrip(":"), _linked()):
        if name and is_zone(name):
            return name
    return zone_of_offset(_offset_min())


def zone_of_offset(offset_min: int) -> str:
    """Return the zone that always lies so far from UTC; its name counts westward."""
    hours, rest = divmod(offset_min, _HOUR_MIN)
    if rest or not hours:
        return "UTC"
    return f"Etc/GMT{-hours:+d}"


def is_zone(name: str) -> bool:
    """Whether the zone is known here."""
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True


def _linked() -> str:
    try:
        target = str(_LINK.resolve(strict=True))
    except OSError:
        return ""
    _, found, name = target.partition("zoneinfo/")
    return name if found else ""


def _offset_min() -> int:
    offset = datetime.now().astimezone().utcoffset()
    return int(offset.total_seconds() // _HOUR_MIN) if offset else 0
