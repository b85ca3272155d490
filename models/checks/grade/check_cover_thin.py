"""cover_thin: too little ground over the pipe."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.stretches import bad_runs
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.laid_pipe import Fault, LaidPipe, LaidShot, laid_pipe
from models.science.grade.cover import cover_nm
from models.science.levelling.laser_plane import Length
from models.state.job_state import JobState

_Covered = tuple[LaidShot, Length]


def _covers(state: JobState, collector_id: str, pipe: LaidPipe) -> Iterator[_Covered]:
    """Cover over the obvert at each shot whose ground is known."""
    ground_at = ground_over(state, collector_id)
    for shot in pipe.shots:
        ground_nm = ground_at(shot.at.station_nm)
        if ground_nm is not None:
            yield shot, cover_nm(ground_nm, shot.at.level_nm + pipe.design.bore_nm)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    if pipe is None:
        return
    least_nm = pipe.design.cover_least_nm

    def is_thin(covered: _Covered) -> bool:
        shot, over_nm = covered
        is_high = shot.fault is Fault.OFF_GRADE and shot.off_nm > 0
        return over_nm < least_nm and not is_high  # too high a pipe is told as that

    for run in bad_runs(list(_covers(state, subject, pipe)), is_thin):
        thinnest = min(run, key=lambda covered: covered[1])
        yield make_finding(
            CHECK.id,
            subject,
            [shot.at.entry for shot, _ in run],
            place=str(run[0][0].at.station_nm),
            cover_nm=whole_nm(thinnest[1]),
            least_nm=least_nm,
            station_nm=thinnest[0].at.station_nm,
            shots=len(run),
        )


CHECK = Check(
    id="cover_thin",
    severity=Severity.STOP,
    problem="There is too little ground over the pipe.",
    why="A wheel or an aerator tine reaches a pipe that lies shallow, and frost moves it.",
    cure="Lower the pipe, or have whoever designed it accept the cover before it is closed.",
    message="At {station_nm:station} the cover is {cover_nm:depth}, {least_nm:depth} is the "
    "least. Neighbouring stations where it is thin: {shots}.",
    watches=LEVELS,
    subjects=every_collector,
    examine=_examine,
)
