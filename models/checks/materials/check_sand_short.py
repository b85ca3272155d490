"""sand_short: less sand went into a pass than its slits take."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.materials.pass_sand import FILLED, is_finished, sand_finding, sand_work
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold the sand of a finished pass against the volume cut to design."""
    sand = sand_work(state, pass_id)
    if sand is not None and sand.is_short and is_finished(state, sand):
        yield sand_finding("sand_short", sand, least_pl=sand.least_pl)


CHECK = Check(
    id="sand_short",
    severity=Severity.FIX,
    problem="Too little sand went in.",
    why="Sand that bridges leaves a hollow under the turf; it sinks in the first rain and the "
    "slit stops draining.",
    cure="Rod or water the slit until the sand settles, top it up with dry sand, and log what "
    "went in.",
    message="Pass {pass_id}: {placed_pl:volume} of sand in, at least {least_pl:volume} is wanted "
    "for a cut of {due_pl:volume}.",
    watches=FILLED,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
