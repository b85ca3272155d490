"""shots_too_far_apart: too long a gap between two inverts."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import LEVELS, every_collector
from models.checks.finding import Check, Finding, Severity
from models.checks.grade.reach_finding import reach_finding
from models.queries.grade.laid_pipe import laid_pipe
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    if pipe is None or not pipe.design.shot_every_nm:
        return
    for reach in pipe.reaches:
        if reach.length_nm > pipe.design.shot_every_nm:
            yield reach_finding(
                CHECK.id,
                subject,
                reach,
                apart_nm=reach.length_nm,
                most_nm=pipe.design.shot_every_nm,
            )


CHECK = Check(
    id="shots_too_far_apart",
    severity=Severity.FIX,
    problem="Two neighbouring inverts were shot further apart than the plan allows.",
    why="Between two shots nobody has looked: the pipe can dip there and hold water.",
    cure="Shoot an invert between them before the pipe is covered.",
    message="From {from_nm:station} to {to_nm:station} there is no invert for "
    "{apart_nm:length}, {most_nm:length} is allowed.",
    watches=LEVELS,
    subjects=every_collector,
    examine=_examine,
)
