"""permission_ends: a collector is laid whole after the leave for its outlet ended."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.outlet.runs_laid import (
    LAID_TO,
    every_outlet,
    outlet_entry,
    outlet_of,
    pipe_of_last_reach,
)
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    planned = outlet_entry(state, subject)
    pipe = pipe_of_last_reach(state, subject)
    if planned is None or pipe is None:
        return
    outlet = outlet_of(planned)
    until = outlet.permission_until
    if outlet.permission == "given" and until is not None and until < pipe.day:
        yield make_finding(CHECK.id, subject, [planned, pipe], outlet_id=subject, good_until=until)


CHECK = Check(
    id="permission_ends",
    severity=Severity.STOP,
    problem="The leave to give water to an outlet ended before the collector was laid.",
    why="Leave that has ended is none: whoever gave it may stop the water.",
    cure="Have the leave renewed before water runs, and write down until when.",
    message="Leave to give water to {outlet_id} was good until {good_until}.",
    watches=LAID_TO,
    subjects=every_outlet,
    examine=_examine,
)
