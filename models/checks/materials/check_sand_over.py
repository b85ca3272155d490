"""sand_over: more sand went into a pass than its slits take."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.materials.pass_sand import SAND_AND_LIMITS, sand_finding, sand_work
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold the sand of a pass against the volume cut to design."""
    sand = sand_work(state, pass_id)
    if sand is not None and sand.is_over:
        yield sand_finding("sand_over", sand, most_pl=sand.most_pl)


CHECK = Check(
    id="sand_over",
    severity=Severity.NOTE,
    problem="More sand went in than the slit should take.",
    why="The slit is wider or deeper than it looks, sand runs off into a hollow, or a load is "
    "logged on the wrong pass.",
    cure="Probe the depth and width again, look for a hollow or an old trench, and see that "
    "each load is on its own pass.",
    message="Pass {pass_id}: {placed_pl:volume} of sand in, at most {most_pl:volume} is expected "
    "for a cut of {due_pl:volume}.",
    watches=SAND_AND_LIMITS,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
