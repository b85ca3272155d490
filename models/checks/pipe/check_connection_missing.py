"""connection_missing: a day ended with pipe in a line that no joint ties to the collector."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import DAY_ENDS, lines_drained, lines_drained_of_day, lines_of_plan
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.pass_work import has_day_ended, surface_of
from models.entries.keys import LineKey, split_key
from models.state.indexes import PIPE_IN_COLLECTOR, PIPE_IN_LINE
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for a joint on the pipe of a line, once the collector has pipe to join to."""
    pipes = state.current(PIPE_IN_LINE, key)
    surface_id, _ = split_key(key)
    surface = surface_of(state, surface_id)
    if not pipes or surface is None or any(entry.body.connected for entry in pipes):
        return
    collector = state.current(PIPE_IN_COLLECTOR, surface.collector_id)
    if not collector or not surface.collector_id:
        return
    rests_on = [*pipes, collector[-1]]
    if has_day_ended(state, max(entry.day for entry in rests_on)):
        yield line_finding(
            "connection_missing",
            key,
            rests_on,
            collector_id=surface.collector_id,
        )


CHECK = Check(
    id="connection_missing",
    severity=Severity.FIX,
    problem="A piped slit is not joined to the collector.",
    why="Water runs to the end of the pipe and stands there; once the collector is covered "
    "the joint has to be dug for.",
    cure="Join it with a tee or a saddle before the collector is covered, then correct the "
    "pipe entry to joined.",
    message="Line {line_id} on {surface_id} is not logged as joined to collector {collector_id}.",
    watches={
        "pipe_laid": lines_drained,
        "surface": lines_of_plan,
        **dict.fromkeys(DAY_ENDS, lines_drained_of_day),
    },
    subjects=lambda state: state.every_name(PIPE_IN_LINE),
    examine=examine,
)
