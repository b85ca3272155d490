"""piped_line_without_outlet: pipe was laid in a slit whose water reaches no outlet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected import lines_drained, lines_of_plan
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.pass_work import surface_of
from models.entries.envelope import AnyEntry
from models.entries.keys import LineKey, split_key
from models.queries.water.network import reaches_outlet
from models.state.indexes import PIPE_IN_COLLECTOR, PIPE_IN_LINE
from models.state.job_state import JobState


def _any_piped(state: JobState, entry: AnyEntry) -> Iterable[LineKey]:
    """Every line with pipe in it: what leads to an outlet was planned anew."""
    return state.every_name(PIPE_IN_LINE)


def _examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for a way out; a collector with pipe in it and no outlet is told by itself."""
    pipes = state.current(PIPE_IN_LINE, key)
    surface_id, line_id = split_key(key)
    surface = surface_of(state, surface_id)
    if not pipes or surface is None or line_id not in surface.places:
        return
    if reaches_outlet(state, surface_id, line_id):
        return
    if not surface.collector_id or not state.current(PIPE_IN_COLLECTOR, surface.collector_id):
        yield line_finding(CHECK.id, key, pipes)


CHECK = Check(
    id="piped_line_without_outlet",
    severity=Severity.STOP,
    problem="Pipe lies in a slit whose water reaches no outlet in the plan.",
    why="The pipe fills and stands full: the slit is wet for good, and is dug up again.",
    cure="Find out where its water goes before it is filled, and plan the joint and the outlet.",
    message="Line {line_id} on {surface_id} has pipe in it and reaches no outlet in the plan.",
    watches={
        "pipe_laid": lines_drained,
        "surface": lines_of_plan,
        "layout": lines_of_plan,
        "collector": _any_piped,
        "outlet": _any_piped,
    },
    subjects=lambda state: state.every_name(PIPE_IN_LINE),
    examine=_examine,
)
