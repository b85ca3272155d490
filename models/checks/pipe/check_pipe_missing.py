"""pipe_missing: a piped slit that was filled or covered without pipe."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import (
    line_of_pipe,
    lines_beside,
    lines_of_entry,
    lines_of_pass_named,
    lines_of_plan,
)
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.pass_work import is_filled, surface_of
from models.entries.keys import LineKey, split_key
from models.entries.kind_names import SAND_PLACED
from models.state.indexes import CUTS_OF, PIPE_IN_LINE
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for pipe in a piped slit that was cut and is filled or covered."""
    surface_id, line_id = split_key(key)
    surface = surface_of(state, surface_id)
    place = surface.places.get(line_id) if surface is not None else None
    if place is None or place.line.use != "piped_slit" or state.current(PIPE_IN_LINE, key):
        return
    for entry in state.current(CUTS_OF, key):
        cut = entry.body
        if is_filled(state, cut):
            yield line_finding(
                "pipe_missing",
                key,
                [entry, *state.current(SAND_PLACED, cut.pass_id)[-1:]],
                pass_id=cut.pass_id,
            )
            return


CHECK = Check(
    id="pipe_missing",
    severity=Severity.STOP,
    problem="A piped slit was filled and no pipe is logged in it.",
    why="Without its pipe the slit carries next to nothing, and the sand slits that cross it "
    "have nowhere to go.",
    cure="If the pipe is in, log it. If not, take the sand out again, lay the pipe, and fill "
    "the slit.",
    message="Line {line_id} on {surface_id} is a piped slit; pass {pass_id} is filled and no pipe "
    "is logged.",
    watches={
        "pass": lines_of_entry,
        "pipe_laid": line_of_pipe,
        "sand_placed": lines_of_pass_named,
        "watered_in": lines_of_pass_named,
        "turf_strip": lines_beside,
        "surface": lines_of_plan,
    },
    subjects=lambda state: state.every_name(CUTS_OF),
    examine=examine,
)
