"""Findings about a single reach of a collector."""

from __future__ import annotations

from models.checks.finding import Finding, make_finding
from models.queries.grade.laid_pipe import LaidReach
from models.units.filled_text import Fact


def reach_finding(check: str, subject: str, reach: LaidReach, **facts: Fact) -> Finding:
    """Finding of a check about a reach; it rests on the shots at its two ends."""
    low, high = reach.low.at, reach.high.at
    return make_finding(
        check,
        subject,
        [low.entry, high.entry],
        place=str(low.station_nm),
        from_nm=low.station_nm,
        to_nm=high.station_nm,
        **facts,
    )
