"""Findings about a single probe, a depth or width read in a slit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from models.checks.finding import Finding, make_finding
from models.checks.slits.pass_work import Reading, pass_work
from models.state.job_state import JobState
from models.units.filled_text import Fact


def probe_finding(check: str, pass_id: str, reading: Reading, **facts: Fact) -> Finding:
    """Finding of a check about one probe of a pass; its place is the line and how far along."""
    probe = reading.probe
    return make_finding(
        check,
        pass_id,
        [reading.entry],
        f"{probe.line_id}@{probe.along_nm}",
        pass_id=pass_id,
        line_id=probe.line_id,
        along_nm=probe.along_nm,
        **facts,
    )


def depth_findings(
    check: str, state: JobState, pass_id: str, limit: Literal["least_nm", "most_nm"]
) -> Iterator[Finding]:
    """Hold every current probe of a pass against the least or the most depth of its pattern."""
    work = pass_work(state, pass_id)
    for reading in work.depth_out if work is not None else ():
        depth_nm, pattern = reading.probe.depth_nm, reading.pattern
        if limit == "least_nm":
            limit_nm, is_beyond = pattern.least_depth_nm, depth_nm < pattern.least_depth_nm
        else:
            limit_nm, is_beyond = pattern.most_depth_nm, depth_nm > pattern.most_depth_nm
        if is_beyond:
            facts: dict[str, Fact] = {limit: limit_nm, "design_nm": pattern.depth_nm}
            yield probe_finding(check, pass_id, reading, depth_nm=depth_nm, **facts)
