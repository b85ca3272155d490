"""width_out: a slit that is wider or narrower than its pattern allows."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED
from models.checks.finding import Check, Finding, Severity
from models.checks.slits.pass_work import pass_work
from models.checks.slits.probe_finding import probe_finding
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold every current width of a pass against its pattern."""
    work = pass_work(state, pass_id)
    for reading in work.width_out if work is not None else ():
        probe, pattern = reading.probe, reading.pattern
        if probe.width_nm is not None:
            yield probe_finding(
                "width_out",
                pass_id,
                reading,
                width_nm=probe.width_nm,
                least_nm=max(pattern.width_nm - pattern.width_tolerance_nm, 0),
                most_nm=pattern.width_nm + pattern.width_tolerance_nm,
            )


CHECK = Check(
    id="width_out",
    severity=Severity.FIX,
    problem="The slit is out of its width.",
    why="A narrow slit bridges and lets too little water in; a wide one drinks sand and stays "
    "open in the turf.",
    cure="Look at the blade and the side play of the leg, set it right before the next pass, "
    "and measure again at the same place.",
    message="Pass {pass_id}, line {line_id} at {along_nm:length}: {width_nm:depth} wide, "
    "{least_nm:depth} to {most_nm:depth} is wanted.",
    watches=PROBED,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
