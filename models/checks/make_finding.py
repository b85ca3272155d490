"""Builds a Finding dated by the newest entry behind it."""

from __future__ import annotations

from collections.abc import Sequence

from models.checks.finding import Finding
from models.entries.envelope import AnyEntry
from models.units.filled_text import Fact


def found(
    check: str, subject: str, rests_on: Sequence[AnyEntry], place: str = "", **facts: Fact
) -> Finding:
    """Finding of a check, dated by the newest entry that it rests on."""
    newest = max(rests_on, key=lambda entry: (entry.lc, entry.id))
    ids = tuple(entry.id for entry in rests_on)
    return Finding(check, subject, place, facts, ids, newest.day)
