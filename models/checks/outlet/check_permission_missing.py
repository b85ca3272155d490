"""permission_missing: a collector is laid whole to an outlet without leave."""

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
    if outlet_of(planned).permission in {"not_asked", "asked"}:
        yield make_finding(
            CHECK.id,
            subject,
            [planned, pipe],
            outlet_id=subject,
            collector_id=pipe.body.collector_id,
        )


CHECK = Check(
    id="permission_missing",
    severity=Severity.STOP,
    problem="A collector is laid whole, and nobody gave leave for the water at its end.",
    why="From its last pipe on it gives water to somebody who may stop it and claim for it.",
    cure="Get leave from whoever owns the outlet before water runs, and write down who gave it.",
    message="All pipe of {collector_id} lies, and there is no leave to give water to {outlet_id}.",
    watches=LAID_TO,
    subjects=every_outlet,
    examine=_examine,
)
