"""Whether the pipe of a line is finished: its line is filled, or its day has ended."""

from __future__ import annotations

from models.checks.affected import (
    DAY_ENDS,
    line_of_pipe,
    lines_beside,
    lines_of_day,
    lines_of_entry,
    lines_of_pass_named,
)
from models.checks.finding import Subjects
from models.checks.slits.pass_work import has_day_ended, is_filled
from models.entries.envelope import AnyEntry
from models.entries.keys import LineKey
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState

FILLING: dict[str, Subjects] = {
    "pipe_laid": line_of_pipe,
    "pass": lines_of_entry,
    "sand_placed": lines_of_pass_named,
    "watered_in": lines_of_pass_named,
    "turf_strip": lines_beside,
    **dict.fromkeys(DAY_ENDS, lines_of_day),
}
"""What affects the pipe of a line, and whether it is finished."""


def is_pipe_finished(state: JobState, key: LineKey, pipe: AnyEntry) -> bool:
    """Whether nothing more is to be expected on the pipe of a line; ``pipe`` is its last entry."""
    cuts = state.bodies(CUTS_OF, key)
    return has_day_ended(state, pipe.day) or any(is_filled(state, cut) for cut in cuts)
