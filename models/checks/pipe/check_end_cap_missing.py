"""end_cap_missing: the pipe of a line has no cap on its high end."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.pipe.line_filling import FILLING, is_pipe_finished
from models.entries.keys import LineKey
from models.state.indexes import PIPE_IN_LINE
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for an end cap once a line is filled or its day has ended."""
    pipes = state.current(PIPE_IN_LINE, key)
    if not pipes or any(entry.body.end_capped for entry in pipes):
        return
    if is_pipe_finished(state, key, pipes[-1]):
        yield line_finding("end_cap_missing", key, pipes)


CHECK = Check(
    id="end_cap_missing",
    severity=Severity.NOTE,
    problem="The high end of a pipe has no cap.",
    why="Sand and roots get in at an open end, and the pipe silts up from there.",
    cure="Open the high end, put a cap on, and correct the pipe entry.",
    message="Line {line_id} on {surface_id}: no end cap is logged.",
    watches=FILLING,
    subjects=lambda state: state.every_name(PIPE_IN_LINE),
    examine=examine,
)
