"""pipe_length_off: the pipe logged in a line is shorter or longer than its slit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from models.checks.affected import lines_of_plan, lines_piped_there
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.pipe.line_filling import FILLING, is_pipe_finished
from models.entries.keys import LineKey, split_key
from models.entries.kind_names import LAYOUT
from models.ledger.ledger import ledger_of
from models.state.indexes import CUTS_OF, PIPE_IN_LINE
from models.state.job_state import JobState

SHORT_PERMILLE = 980
LONG_PERMILLE = 1050
"""Pipe against slit: less leaves an end without pipe, more is no cut-off any longer.
What leads on from a slit to its collector is pipe of that slit too, and may be logged with it.
Common practice, no source."""


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Hold the pipe of a line against its cut, or its plan while no cut is logged."""
    pipes = state.current(PIPE_IN_LINE, key)
    slit_nm = _slit_nm(state, key)
    if not pipes or not slit_nm:
        return
    laid_nm, gap_nm = sum(pipe.body.length_nm for pipe in pipes), _gap_nm(state, key)
    is_long = laid_nm * 1000 > (slit_nm + gap_nm) * LONG_PERMILLE
    is_short = laid_nm * 1000 < slit_nm * SHORT_PERMILLE
    if is_long or (is_short and is_pipe_finished(state, key, pipes[-1])):
        rests_on = [*state.current(CUTS_OF, key), *pipes]
        one = line_finding(
            "pipe_length_off",
            key,
            rests_on,
            laid_nm=laid_nm,
            cut_nm=slit_nm,
        )
        if gap_nm:
            one = replace(one, saying="joined", facts={**one.facts, "gap_nm": gap_nm})
        yield one


def _slit_nm(state: JobState, key: LineKey) -> int:
    tally = ledger_of(state).line(*split_key(key))
    return sum(one.length_nm for one in tally.cut) or tally.planned or 0


def _gap_nm(state: JobState, key: LineKey) -> int:
    """Pipe that leads on from a slit to the collector, as laid out."""
    surface_id, line_id = split_key(key)
    layout = state.latest(LAYOUT, surface_id)
    return layout.gaps_nm.get(line_id, 0) if layout is not None else 0


CHECK = Check(
    id="pipe_length_off",
    severity=Severity.FIX,
    problem="The pipe does not match the length of its slit.",
    why="Too little leaves an end without pipe; too much is a fold on the floor, or pipe of "
    "another line, and the coil count is off.",
    cure="Measure the pipe and the slit again. Splice on what is short before sand goes in, or "
    "correct the length.",
    message="Line {line_id} on {surface_id}: {laid_nm:length} of pipe logged for {cut_nm:length} "
    "of slit.",
    messages={
        "joined": "Line {line_id} on {surface_id}: {laid_nm:length} of pipe logged for "
        "{cut_nm:length} of slit and {gap_nm:length} on to the collector."
    },
    watches={**FILLING, "surface": lines_of_plan, "layout": lines_piped_there},
    subjects=lambda state: state.every_name(PIPE_IN_LINE),
    examine=examine,
)
