"""belly: a low place of the pipe that holds water."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROVEN_LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.grade.reach_finding import AS_READ, weigh
from models.queries.grade.laid_pipe import LaidBelly, LaidPipe, laid_pipe
from models.state.job_state import JobState
from models.units import round_half_even

ML_PL = 10**9
"""One millilitre in picolitres."""


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    for belly in pipe.bellies if pipe is not None else ():
        if pipe is not None:
            yield _finding(subject, pipe, belly)


def _finding(subject: str, pipe: LaidPipe, laid: LaidBelly) -> Finding:
    belly = laid.belly
    wet = [shot for shot in pipe.shots if belly.start_nm <= shot.at.station_nm <= belly.end_nm]
    deepest = next(shot for shot in wet if shot.at.station_nm == belly.deepest_nm)
    found = make_finding(
        CHECK.id,
        subject,
        [shot.at.entry for shot in wet],
        place=str(belly.deepest_nm),
        from_nm=belly.start_nm,
        to_nm=belly.end_nm,
        apart_nm=belly.length_nm,
        depth_nm=whole_nm(belly.depth_nm),
        # floats end here: whole millilitres, or an answer would lapse on another tablet
        water_pl=round_half_even(belly.volume_pl, ML_PL) * ML_PL,
        station_nm=belly.deepest_nm,
        # back to its design where it lies below that, else to where it just runs dry
        raise_nm=whole_nm(max(-deepest.off_nm, belly.depth_nm)),
    )
    return weigh(found, laid.proof)


CHECK = Check(
    id="belly",
    severity=Severity.STOP,
    problem="A low place in the pipe holds water.",
    why="Silt settles where water stands, roots find it, and in frost it heaves.",
    cure="Lift the pipe over the low place, bed it again, and shoot it again.",
    message="A belly from {from_nm:station} to {to_nm:station}: {apart_nm:length} long, "
    "{depth_nm:fine} deep, it holds {water_pl:water}. Raise {station_nm:station} by "
    "{raise_nm:rise}.",
    messages={
        AS_READ: "Shoot {station_nm:station} again: as read there is a belly from "
        "{from_nm:station} to {to_nm:station}, {depth_nm:fine} deep, and that depth is good to "
        "{error_nm:fine}."
    },
    cures={
        AS_READ: "Shoot the low place and what holds it in again from one setup; lift the pipe "
        "once that says so too."
    },
    watches=PROVEN_LEVELS,
    subjects=every_collector,
    examine=_examine,
)
