"""Names of entries in a finding: kind, number and tablet."""

from __future__ import annotations

from models.entries.envelope import AnyEntry
from models.entries.tablet_code import code_of

MOST_NAMED = 3


def name_of(entry: AnyEntry) -> str:
    """Kind, number and tablet of an entry: ``note 12 of 7KQ2-01XM-9P3A-TTBA``."""
    kind = entry.kind.replace("_", " ")[:40] or "entry"
    return f"{kind} {entry.seq} of {code_of(entry.stream) or entry.stream[:8] or '?'}"


def names_of(entries: list[AnyEntry]) -> str:
    """Name the first few of some entries."""
    named = ", ".join(map(name_of, entries[:MOST_NAMED]))
    return named + (", ..." if len(entries) > MOST_NAMED else "")
