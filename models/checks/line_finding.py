"""Findings about a single line of a surface: a sand slit or a piped slit."""

from __future__ import annotations

from collections.abc import Sequence

from models.checks.finding import Finding
from models.checks.make_finding import found
from models.entries.envelope import AnyEntry
from models.entries.keys import LineKey, split_key
from models.units.filled_text import Fact


def line_finding(check: str, key: LineKey, rests_on: Sequence[AnyEntry], **facts: Fact) -> Finding:
    """Finding of a check about one line; its facts name the line and its surface."""
    surface_id, line_id = split_key(key)
    return found(check, key, rests_on, place="", line_id=line_id, surface_id=surface_id, **facts)
