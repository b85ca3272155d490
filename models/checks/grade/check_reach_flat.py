"""reach_flat: a reach that falls less than the least grade."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROVEN_LEVELS, every_collector, in_ppm, whole_nm
from models.checks.finding import Check, Finding, Severity
from models.checks.grade.reach_finding import AS_READ, reach_finding, weigh
from models.queries.grade.laid_pipe import Fault, laid_pipe
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    for reach in pipe.reaches if pipe is not None else ():
        if pipe is None or reach.fault is not Fault.FLAT:
            continue
        upper, lower = (
            (reach.high, reach.low)
            if pipe.design.stationed_from == "outlet"
            else (reach.low, reach.high)
        )
        found = reach_finding(
            CHECK.id,
            subject,
            reach,
            grade_ppm=in_ppm(reach.fall_nm, reach.length_nm),
            least_ppm=in_ppm(pipe.least_grade),
            short_nm=whole_nm(pipe.least_grade * reach.length_nm - reach.fall_nm),
            upper_nm=upper.at.station_nm,
            lower_nm=lower.at.station_nm,
        )
        yield weigh(found, reach.proof)


CHECK = Check(
    id="reach_flat",
    severity=Severity.STOP,
    problem="A reach falls less than the least grade.",
    why="Water in a flat reach runs too slowly to carry silt, and the pipe fills up.",
    cure="Lift the upper end or lower the lower one by what is said; the Grade page shows "
    "how to do it with the least pipe disturbed.",
    message="From {from_nm:station} to {to_nm:station} the pipe falls {grade_ppm:grade}, "
    "{least_ppm:grade} is the least. Raise {upper_nm:station} by {short_nm:fine}, or lower "
    "{lower_nm:station} by as much.",
    messages={
        AS_READ: "Shoot {from_nm:station} and {to_nm:station} again, or a longer reach: as read "
        "the pipe falls {grade_ppm:grade}, {least_ppm:grade} is the least, which is "
        "{short_nm:fine} too little, and the fall between them is good to {error_nm:fine}."
    },
    cures={
        AS_READ: "Shoot both ends again from one setup, or a longer reach; lift or lower an end "
        "once that says so too."
    },
    watches=PROVEN_LEVELS,
    subjects=every_collector,
    examine=_examine,
)
