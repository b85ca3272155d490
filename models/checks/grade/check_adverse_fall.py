"""adverse_fall: a reach that runs backwards."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROVEN_LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity
from models.checks.grade.reach_finding import AS_READ, reach_finding, weigh
from models.queries.grade.laid_pipe import Fault, laid_pipe
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    for reach in pipe.reaches if pipe is not None else ():
        if reach.fault is Fault.ADVERSE:
            found = reach_finding(
                CHECK.id,
                subject,
                reach,
                backwards_nm=-whole_nm(reach.fall_nm),
            )
            yield weigh(found, reach.proof)


CHECK = Check(
    id="adverse_fall",
    severity=Severity.STOP,
    problem="A reach runs backwards.",
    why="Water stands in it, whatever the rest of the pipe does.",
    cure="Lift the end away from the outlet until it falls, bed it again, and shoot it again.",
    message="From {from_nm:station} to {to_nm:station} the pipe runs backwards by "
    "{backwards_nm:fine}.",
    messages={
        AS_READ: "Shoot {from_nm:station} and {to_nm:station} again: as read the pipe runs "
        "backwards by {backwards_nm:fine}, and the fall between them is good to {error_nm:fine}."
    },
    cures={AS_READ: "Shoot both ends again from one setup; lift one once that says so too."},
    watches=PROVEN_LEVELS,
    subjects=every_collector,
    examine=_examine,
)
