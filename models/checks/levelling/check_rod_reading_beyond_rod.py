"""rod_reading_beyond_rod: a reading that no rod can give."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from models.checks.affected_together import setup_named
from models.checks.finding import Check, Finding, Severity
from models.checks.make_finding import found
from models.entries.body import Body
from models.entries.envelope import AnyEntry
from models.entries.index import Index
from models.entries.kind_names import CHECK_SHOT, SETUP, TURNING_POINT
from models.queries.levelling.setup_chain import LONGEST_ROD_NM, is_on_rod
from models.state.indexes import SHOTS_FROM
from models.state.job_state import JobState

_READ_FROM: dict[Index[Body, str], str] = {
    SETUP: "backsight_nm",
    TURNING_POINT: "foresight_nm",
    CHECK_SHOT: "reading_nm",
    SHOTS_FROM: "reading_nm",
}
"""Drawers of a setup, and the reading in each of their entries."""


def _subjects(state: JobState) -> Iterable[str]:
    return dict.fromkeys(name for index in _READ_FROM for name in state.all_names(index))


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    for index, field in _READ_FROM.items():
        for entry in state.current(index, subject):
            reading_nm = getattr(entry.body, field)
            if reading_nm is not None and not is_on_rod(reading_nm):
                yield _finding(subject, entry, reading_nm)


def _finding(subject: str, entry: AnyEntry, reading_nm: int) -> Finding:
    body: Any = entry.body
    what = entry.kind if entry.kind != "setup" else "backsight"
    return found(
        CHECK.id,
        subject,
        [entry],
        place=entry.id,
        what=what.replace("_", " "),
        setup_id=body.setup_id,
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
    watches=dict.fromkeys(("setup", "turning_point", "check_shot", "grade_shot"), setup_named),
    subjects=_subjects,
    examine=_examine,
)
