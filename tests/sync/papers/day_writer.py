"""Writes invented entries straight into a job state: stored bytes, read back as a book would."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from models.checks.flag_board import FlagBoard
from models.entries.envelope import AnyEntry, body_fields, build_body, canonical_bytes, read_entry
from models.state.job_state import JobState

IN, FT, MM, M = 25_400_000, 304_800_000, 1_000_000, 1_000_000_000
YD3, M3, TON, TONNE = 764_554_857_984_000, 10**15, 907_184_740_000, 10**12


class DayWriter:
    """One tablet with one hand: each ``write`` is the next entry, a minute after the last."""

    def __init__(self, stream: str = "tablet-1", author: str = "R. Okafor") -> None:
        self.state = JobState()
        self.stream, self.author = stream, author
        self.day, self.minute = "2026-06-08", 7 * 60
        self.count = 0

    def on(self, day: str, minute: int = 7 * 60) -> DayWriter:
        """Go to a day."""
        self.day, self.minute = day, minute
        return self

    def write(self, kind: str, **fields: Any) -> AnyEntry:
        """Write one entry of a kind; ``strikes``, ``reason`` and ``for_day`` are its envelope's.

        ``newer`` are fields of its body that a newer version would write.
        """
        newer = fields.pop("newer", {})
        for_day = fields.pop("for_day", self.day)
        strikes, reason = fields.pop("strikes", ()), fields.pop("reason", "")
        self.count += 1
        self.minute += 1
        midnight = datetime.fromisoformat(f"{self.day}T00:00:00+00:00")
        entry = read_entry(
            canonical_bytes(
                {
                    "id": f"0197{self.count:04x}-{self.stream}",
                    "stream": self.stream,
                    "seq": self.count,
                    "lc": self.count,
                    "kind": kind,
                    "v": 1,
                    "at_ms": int(midnight.timestamp() * 1000) + (self.minute + 300) * 60_000,
                    "offset_min": -300,
                    "zone": "America/Chicago",
                    "author": self.author,
                    "job": "J1",
                    "day": for_day,
                    "strikes": list(strikes),
                    "reason": reason,
                    "body": {**body_fields(build_body(kind, fields)), **newer},
                }
            )
        )
        self.state.add(entry)
        return entry

    def board(self) -> FlagBoard:
        """Flags of the job as it stands."""
        return FlagBoard(self.state)
