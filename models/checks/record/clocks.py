"""Wall time of an entry, as the tablet that wrote it showed it."""

from __future__ import annotations

from models.entries.envelope import AnyEntry


def shown_time(entry: AnyEntry) -> str:
    """Date and time of an entry by the clock of its tablet."""
    return entry.written_at()
