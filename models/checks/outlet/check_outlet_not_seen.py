"""outlet_not_seen: pipe runs to an outlet that nobody has looked at."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.outlet.runs_laid import LAID_TO, every_outlet, outlet_entry, runs_to, seen_as
from models.entries.kind_names import OUTLET_SEEN
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    """Look for an entry of the outlet, or of its collector where it was written by that name."""
    planned = outlet_entry(state, subject)
    runs = [(run.collector_id, pipes) for run, pipes in runs_to(state, subject) if pipes]
    names = (subject, *(name for name, _ in runs))
    if planned is None or not runs or any(state.current(OUTLET_SEEN, one) for one in names):
        return
    name, pipes = runs[0]
    yield make_finding(CHECK.id, subject, [planned, pipes[0]], outlet_id=subject, collector_id=name)


CHECK = Check(
    id="outlet_not_seen",
    severity=Severity.FIX,
    problem="Pipe runs to an outlet that nobody has looked at.",
    why="An outlet that lies higher than planned, or under water, is found when all is laid.",
    cure="Go to the outlet: measure its invert and the water in it, and log what you saw.",
    message="Pipe lies in {collector_id}, and its outlet {outlet_id} is not logged as seen.",
    watches={**LAID_TO, "outlet_seen": seen_as},
    subjects=every_outlet,
    examine=_examine,
)
