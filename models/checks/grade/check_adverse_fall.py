"""adverse_fall: a reach that runs backwards."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity
from models.checks.grade.reach_finding import reach_finding
from models.queries.grade.laid_pipe import Fault, laid_pipe
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    for reach in pipe.reaches if pipe is not None else ():
        if reach.fault is Fault.ADVERSE:
            yield reach_finding(
                CHECK.id,
                subject,
                reach,
                backwards_nm=-whole_nm(reach.fall_nm),
            )


CHECK = Check(
    id="adverse_fall",
    severity=Severity.STOP,
    problem="A reach runs backwards.",
    why="Water stands in it, whatever the rest of the pipe does.",
    cure="Lift the end away from the outlet until it falls, bed it again, and shoot it again.",
    message="From {from_nm:station} to {to_nm:station} the pipe runs backwards by "
    "{backwards_nm:fine}.",
    watches=LEVELS,
    subjects=every_collector,
    examine=_examine,
)
