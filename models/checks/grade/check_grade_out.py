"""grade_out: an invert off its design by more than is allowed."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROVEN_LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.grade.reach_finding import AS_READ, weigh
from models.queries.grade.laid_pipe import Fault, laid_pipe
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    for shot in pipe.shots if pipe is not None else ():
        if pipe is None or shot.fault is not Fault.OFF_GRADE:
            continue
        is_high = shot.off_nm > 0
        found = make_finding(
            CHECK.id,
            subject,
            [shot.at.entry],
            place=str(shot.at.station_nm),
            do="Lower" if is_high else "Raise",
            off_nm=abs(whole_nm(shot.off_nm)),
            station_nm=shot.at.station_nm,
            side="above" if is_high else "below",
            allowed_nm=pipe.design.high_nm if is_high else pipe.design.low_nm,
        )
        yield weigh(found, shot.proof)


CHECK = Check(
    id="grade_out",
    severity=Severity.STOP,
    problem="An invert lies off its design by more than is allowed.",
    why="A pipe that is high backs water up behind it, one that is low holds it; once it is "
    "covered nobody puts it right.",
    cure="Lift or lower the pipe there by what is said, bed it again, and shoot it again.",
    message="{do} {off_nm:rise} at {station_nm:station}: the invert is {off_nm:fine} {side} "
    "its design, {allowed_nm:fine} is allowed.",
    messages={
        AS_READ: "Shoot {station_nm:station} again: as read the invert is {off_nm:fine} {side} "
        "its design, {allowed_nm:fine} is allowed, and its level is good to {error_nm:fine}."
    },
    cures={
        AS_READ: "Shoot it again, best from another setup on a benchmark; lift or lower it once "
        "that says so too."
    },
    watches=PROVEN_LEVELS,
    subjects=every_collector,
    examine=_examine,
)
