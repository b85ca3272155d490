"""depth_deep: a slit that is deeper than its pattern allows."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED
from models.checks.finding import Check, Finding, Severity
from models.checks.slits.probe_finding import depth_findings
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold every current probe of a pass against the most depth of its pattern."""
    return depth_findings("depth_deep", state, pass_id, "most_nm")


CHECK = Check(
    id="depth_deep",
    severity=Severity.FIX,
    problem="The slit is too deep.",
    why="A deep place swallows more sand than was ordered, and under a pipe it makes a belly "
    "that holds water.",
    cure="Raise the blade; put dry sand on the floor up to design depth, then probe again at "
    "the same place.",
    message="Pass {pass_id}, line {line_id} at {along_nm:length}: {depth_nm:depth} deep, at most "
    "{most_nm:depth} is wanted; bring the floor up to {design_nm:depth}.",
    watches=PROBED,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
