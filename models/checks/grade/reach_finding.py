"""Findings about levels of a collector: of a single reach, and of what readings can't prove."""

from __future__ import annotations

from dataclasses import replace

from models.checks.finding import Finding, Severity, make_finding
from models.queries.grade.laid_pipe import LaidReach, Proof
from models.science.quality.verdict import Verdict
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


AS_READ = "as read"
"""Message of a finding that holds as read, and that the readings can't prove."""


def weigh(finding: Finding, proof: Proof) -> Finding:
    """The finding as it is where it is proven; else one to shoot again, with its guard band."""
    if proof.verdict is Verdict.OUT:
        return finding
    facts = {**finding.facts, "error_nm": proof.guard_nm}
    return replace(finding, facts=facts, saying=AS_READ, severity=Severity.FIX)
