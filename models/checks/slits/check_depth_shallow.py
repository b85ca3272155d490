"""depth_shallow: a slit that is shallower than its pattern allows."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED
from models.checks.finding import Check, Finding, Severity
from models.checks.slits.probe_finding import depth_findings
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold every current probe of a pass against the least depth of its pattern."""
    return depth_findings("depth_shallow", state, pass_id, "least_nm")


CHECK = Check(
    id="depth_shallow",
    severity=Severity.STOP,
    problem="The slit is too shallow.",
    why="A shallow place holds the water that should run through, and sand on top hides it "
    "for good.",
    cure="Cut the line again to its design depth before sand goes in, then probe it again at "
    "the same place.",
    message="Pass {pass_id}, line {line_id} at {along_nm:length}: {depth_nm:depth} deep, at least "
    "{least_nm:depth} is wanted; cut again to {design_nm:depth}.",
    watches=PROBED,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
