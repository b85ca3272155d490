"""rod_reading_beyond_rod: a reading that no rod can give."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.body import Body
from models.entries.envelope import AnyEntry
from models.entries.index import Index
from models.entries.kind_names import CHECK_SHOT, SETUP, TURNING_POINT
from models.queries.levelling.setup_chain import LONGEST_ROD_NM, is_on_rod
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState

_READ_FROM: tuple[Index[Body, str], ...] = (SETUP, TURNING_POINT, CHECK_SHOT, SHOTS_FROM)
"""Drawers of a setup, with a reading in each of their entries."""


def _subjects(state: JobState) -> Iterable[str]:
    return dict.fromkeys(name for index in _READ_FROM for name in state.every_name(index))


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for entry, reading_nm in _readings(state, subject):
        if reading_nm is not None and not is_on_rod(reading_nm):
            yield _finding(subject, entry, reading_nm)


def _readings(state: JobState, setup_id: str) -> Iterator[tuple[AnyEntry, int | None]]:
    """Every reading of a setup in nm, None where it was not taken, drawer by drawer."""
    yield from ((setup, setup.body.backsight_nm) for setup in state.current(SETUP, setup_id))
    for turning in state.current(TURNING_POINT, setup_id):
        yield turning, turning.body.foresight_nm
    yield from ((check, check.body.reading_nm) for check in state.current(CHECK_SHOT, setup_id))
    yield from ((shot, shot.body.reading_nm) for shot in state.current(SHOTS_FROM, setup_id))


def _finding(subject: str, entry: AnyEntry, reading_nm: int) -> Finding:
    what = entry.kind if entry.kind != "setup" else "backsight"
    return make_finding(
        CHECK.id,
        subject,
        [entry],
        place=entry.id,
        what=what.replace("_", " "),
        setup_id=subject,
        reading_nm=reading_nm,
        most_nm=LONGEST_ROD_NM,
    )


CHECK = Check(
    id="rod_reading_beyond_rod",
    severity=Severity.FIX,
    problem="A rod reading is below nothing or beyond the longest rod there is.",
    why="Nobody can have read it, so it was typed wrong, and what rests on it is left out "
    "until it is put right.",
    cure="Strike it and write the reading that is on paper, or read the rod again.",
    message="The {what} from {setup_id} reads {reading_nm:level}: a rod reads from nothing "
    "to {most_nm:level}.",
    watches=dict.fromkeys(("setup", "turning_point", "check_shot", "grade_shot"), setup_of_entry),
    subjects=_subjects,
    examine=_examine,
)
