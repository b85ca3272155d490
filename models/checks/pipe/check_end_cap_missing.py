"""end_cap_missing: the pipe of a line has no cap on its high end."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import (
    DAY_ENDS,
    line_of_pipe,
    lines_beside,
    lines_named,
    lines_of_day,
    lines_of_pass_named,
)
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.pass_work import has_day_ended, is_filled
from models.entries.keys import LineKey
from models.state.indexes import CUTS_OF, PIPE_IN_LINE
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for an end cap once a line is filled or its day has ended."""
    pipes = state.current(PIPE_IN_LINE, key)
    if not pipes or any(entry.body.end_capped for entry in pipes):
        return
    cuts = state.bodies(CUTS_OF, key)
    if has_day_ended(state, pipes[-1].day) or any(is_filled(state, cut) for cut in cuts):
        yield line_finding("end_cap_missing", key, pipes)


CHECK = Check(
    id="end_cap_missing",
    severity=Severity.NOTE,
    problem="The high end of a pipe has no cap.",
    why="Sand and roots get in at an open end, and the pipe silts up from there.",
    cure="Open the high end, put a cap on, and correct the pipe entry.",
    message="Line {line_id} on {surface_id}: no end cap is logged.",
    watches={
        "pipe_laid": line_of_pipe,
        "pass": lines_named,
        "sand_placed": lines_of_pass_named,
        "watered_in": lines_of_pass_named,
        "turf_strip": lines_beside,
        **dict.fromkeys(DAY_ENDS, lines_of_day),
    },
    subjects=lambda state: state.all_names(PIPE_IN_LINE),
    examine=examine,
)
