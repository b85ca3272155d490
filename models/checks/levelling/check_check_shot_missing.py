"""check_shot_missing: a laser was moved with shots that no check shot proves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected import DAY_ENDS, day_ended_by
from models.checks.affected_together import runs_and_setup_before, setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import has_day_ended
from models.entries.bodies.levels import GradeShot
from models.entries.envelope import AnyEntry
from models.entries.kind_names import CHECK_SHOT, SETUP
from models.queries.levelling.setup_chain import chain_of, is_over, newest, runs_affected
from models.queries.levelling.setup_proof import BEFORE_ALL, can_be_checked
from models.state.indexes import SHOTS_FROM, WORK_ON
from models.state.job_state import JobState


def _of_the_day(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Setups that were shot from on a day that comes to its end."""
    work = state.bodies(WORK_ON, day_ended_by(entry))
    return {shot.setup_id for shot in work if isinstance(shot, GradeShot)}


def _subjects(state: JobState) -> Iterable[str]:
    return state.every_name(SHOTS_FROM)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    shots = state.current(SHOTS_FROM, subject)
    setup = newest(state, SETUP, subject)
    if not shots or setup is None or not chain_of(state, subject).is_sound:
        return  # other checks tell of a setup that hangs from nothing
    if not (is_over(state, subject) or has_day_ended(state, shots[-1].day)):
        return  # the check shot may still be taken
    checks = (
        state.place_of(entry)
        for entry in state.current(CHECK_SHOT, subject)
        if can_be_checked(state, entry)
    )
    since = max(checks, default=BEFORE_ALL)
    unproven = [shot for shot in shots if state.place_of(shot) > since]
    if unproven:
        yield make_finding(CHECK.id, subject, unproven, setup_id=subject, shots=len(unproven))


CHECK = Check(
    id="check_shot_missing",
    severity=Severity.FIX,
    problem="A setup came to its end without a check shot after its last shot.",
    why="A laser that was knocked looks like a good one; only the rod back on a known point "
    "tells that it still stands as it stood.",
    cure="Read the rod on a benchmark before the laser is moved. If it has been moved, shoot "
    "a few of the stations again from a setup that is proven.",
    message="No check shot was taken from {setup_id} after its last shot. Shots unproven: {shots}.",
    watches={
        "grade_shot": setup_of_entry,
        "check_shot": setup_of_entry,
        "setup": runs_and_setup_before,
        "turning_point": runs_affected,
        "benchmark": runs_affected,
        **dict.fromkeys(DAY_ENDS, _of_the_day),
    },
    subjects=_subjects,
    examine=_examine,
)
