"""Rows as tablets write them, for tests of the office. All invented."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from typing import Any

from models.book.row import GENESIS, Draft, Row, make_row
from models.entries.envelope import body_fields, build_body
from models.entries.kinds import KINDS

KEY = "green-7-0123456789abcdef"
OTHER_KEY = "green-8-fedcba9876543210"
STREAM = "5f" * 16
NOON_MS = 1_780_000_000_000

FT = 304_800_000
IN = 25_400_000
M3 = 10**15


def draft(number: int, kind: str = "note", day: str = "2026-05-28", **told: Any) -> Draft:
    """One draft; what is not a part of the envelope goes into its body."""
    strikes, reason = tuple(told.pop("strikes", ())), str(told.pop("reason", ""))
    body = told or ({"text": "so far"} if kind == "note" else {})
    if kind in KINDS:
        body = body_fields(build_body(kind, body))
    return Draft(
        id=f"0198f000-0000-7000-8000-{number:012x}",
        kind=kind,
        v=KINDS[kind].version if kind in KINDS else 1,
        body=body,
        at_ms=NOON_MS + number * 1000,
        offset_min=-300,
        zone="America/Chicago",
        author="Wren",
        job="green-7",
        day=day,
        strikes=strikes,
        reason=reason,
    )


def written(drafts: Iterable[Draft], stream: str = STREAM) -> list[Row]:
    """Rows of one stream, chained."""
    rows: list[Row] = []
    for number, one in enumerate(drafts, start=1):
        rows.append(make_row(one, stream, number, number, rows[-1].hash if rows else GENESIS))
    return rows


def stream_of(name: str) -> str:
    """A stream that follows from a name."""
    return hashlib.sha256(name.encode()).hexdigest()[:32]


def notes(count: int, stream: str = STREAM) -> list[Row]:
    """So many notes of one stream."""
    return written([draft(number) for number in range(1, count + 1)], stream)


def by_turn(rows: Sequence[Row]) -> list[Row]:
    """Rows in the order of entries."""
    return sorted(rows, key=lambda row: (row.lc, row.id))
