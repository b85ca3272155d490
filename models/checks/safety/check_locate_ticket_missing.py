"""locate_ticket_missing: digging where and when no locate ticket allowed it yet."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.safety.locate_cover import DIGS, begun_by, every_dig
from models.entries.keys import DayPlace, day_names
from models.state.indexes import DUG_AT
from models.state.job_state import JobState


def _examine(state: JobState, subject: DayPlace) -> Iterator[Finding]:
    day, place = day_names(subject)
    digs = state.current(DUG_AT, subject)
    if digs and not begun_by(state, day, place):
        yield make_finding(CHECK.id, subject, digs[:1], where=place, day=day)


CHECK = Check(
    id="locate_ticket_missing",
    severity=Severity.STOP,
    problem="Ground was opened that no locate ticket covers.",
    why="Nobody has marked what lies there; a blade finds a cable before anybody sees it.",
    cure="Stop digging. Call the utility marking service, wait for the marks, and write the "
    "ticket down. DANGER: an electric or gas line may lie where nothing is marked.",
    message="Ground was opened at {where} on {day}, and no locate ticket covers it.",
    watches=DIGS,
    subjects=every_dig,
    examine=_examine,
)
