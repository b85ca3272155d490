"""The wall time of an entry, as the tablet that wrote it showed it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from models.entries.envelope import Entry


def shown_time(entry: Entry) -> str:
    """Date and time of an entry by the clock of its tablet."""
    local = datetime.fromtimestamp(0, UTC) + timedelta(
        milliseconds=entry.at_ms, minutes=entry.offset_min
    )
    return local.strftime("%Y-%m-%d %H:%M")
