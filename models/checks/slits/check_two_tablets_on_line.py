"""two_tablets_on_line: two tablets that logged a pass on the same line."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import lines_of_entry
from models.checks.finding import Check, Finding, Severity, line_finding
from models.entries.keys import LineKey
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Count the tablets that have passes in force along a line."""
    cuts = state.current(CUTS_OF, key)
    tablets = {entry.stream for entry in cuts}
    if len(tablets) < 2:
        return
    passes = dict.fromkeys(entry.body.pass_id for entry in cuts)
    yield line_finding(
        "two_tablets_on_line",
        key,
        list({entry.id: entry for entry in cuts}.values()),
        tablets=len(tablets),
        passes=", ".join(passes),
    )


CHECK = Check(
    id="two_tablets_on_line",
    severity=Severity.FIX,
    problem="Two tablets logged the same line.",
    why="Either it was cut once and is counted twice, or two crews were on one line and one "
    "of them is somewhere else.",
    cure="Settle between the two foremen who cut it, then strike the other pass.",
    message="Line {line_id} on {surface_id} was logged by {tablets} tablets: {passes}.",
    watches={
        "pass": lines_of_entry,
    },
    subjects=lambda state: state.every_name(CUTS_OF),
    examine=examine,
)
