"""reach_too_short_to_tell: a reach that falls enough as read, which the readings can't prove."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROVEN_LEVELS, every_collector, in_ppm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.stretches import bad_runs
from models.queries.grade.laid_pipe import Fault, LaidReach, laid_pipe
from models.state.job_state import JobState


def _is_too_short(reach: LaidReach) -> bool:
    return reach.fault is Fault.TOO_SHORT


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    if pipe is None:
        return
    for run in bad_runs(pipe.reaches, _is_too_short):
        yield make_finding(
            CHECK.id,
            subject,
            [run[0].low.at.entry, *(reach.high.at.entry for reach in run)],
            place=str(run[0].low.at.station_nm),
            from_nm=run[0].low.at.station_nm,
            to_nm=run[-1].high.at.station_nm,
            least_ppm=in_ppm(pipe.least_grade),
            error_nm=max(reach.error_nm for reach in run),
        )


CHECK = Check(
    id="reach_too_short_to_tell",
    severity=Severity.NOTE,
    problem="A reach falls enough as read, and is too short for its readings to prove it.",
    why="Each reading is a little off; over a short reach that is more than what the fall is "
    "above its least. It counts as within, and nobody can say that it is proven.",
    cure="Shoot a longer reach, or read finer.",
    message="From {from_nm:station} to {to_nm:station} the fall between neighbouring shots is "
    "within its least of {least_ppm:grade} as read; readings good to {error_nm:fine} can't "
    "prove it.",
    watches=PROVEN_LEVELS,
    subjects=every_collector,
    examine=_examine,
)
