"""A slit is shallower than its pattern allows."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED
from models.checks.finding import Check, Finding, Severity
from models.checks.make_finding import found
from models.checks.slits.pass_work import pass_work
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold every standing probe of a pass against the least depth of its pattern."""
    work = pass_work(state, pass_id)
    for reading in work.depth_out if work is not None else ():
        probe, pattern = reading.probe, reading.pattern
        least_nm = pattern.depth_nm - pattern.under_nm
        if probe.depth_nm < least_nm:
            yield found(
                "depth_shallow",
                pass_id,
                [reading.entry],
                f"{probe.line_id}@{probe.along_nm}",
                pass_id=pass_id,
                line_id=probe.line_id,
                along_nm=probe.along_nm,
                depth_nm=probe.depth_nm,
                least_nm=least_nm,
                design_nm=pattern.depth_nm,
            )


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
    subjects=lambda state: state.all_names(PASS),
    examine=examine,
)
