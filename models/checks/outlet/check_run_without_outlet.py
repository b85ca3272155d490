"""run_without_outlet: pipe was laid in a collector that leads to no outlet."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import every_key
from models.checks.affected_together import collector_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import COLLECTOR
from models.queries.water.network import outlet_of_run
from models.state.indexes import PIPE_IN_COLLECTOR
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipes = state.current(PIPE_IN_COLLECTOR, subject)
    planned = state.latest(COLLECTOR, subject)
    if pipes and planned is not None and outlet_of_run(state, subject) is None:
        yield make_finding(CHECK.id, subject, pipes, collector_id=subject)


CHECK = Check(
    id="run_without_outlet",
    severity=Severity.STOP,
    problem="Pipe lies in a collector that leads to no outlet in the plan.",
    why="All that drains to it stands in it; where it ends is decided by its first pipe.",
    cure="Plan what it joins, an outlet or another collector, before the first pipe is covered.",
    message="Collector {collector_id} has pipe in it and leads to no outlet in the plan.",
    watches={
        "pipe_laid": collector_of_entry,
        "collector": every_key(PIPE_IN_COLLECTOR),
        "outlet": every_key(PIPE_IN_COLLECTOR),
    },
    subjects=lambda state: state.every_name(PIPE_IN_COLLECTOR),
    examine=_examine,
)
