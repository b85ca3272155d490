"""written_by_newer_version: entries that this version of the app cannot read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bounds import NEWER
from models.entries.envelope import AnyEntry
from models.state.indexes import UNREAD
from models.state.job_state import JobState


def _day_if_unread(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return (entry.day,) if entry.unfit in NEWER else ()


def _subjects(state: JobState) -> Iterable[str]:
    return {entry.day for entry in state.current(UNREAD) if entry.unfit in NEWER}


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    unread = [
        entry
        for entry in state.days.get(subject, ())
        if entry.unfit in NEWER and not state.is_struck(entry.id)
    ]
    if unread:
        kinds = sorted({entry.kind.replace("_", " ") for entry in unread})
        yield make_finding(
            CHECK.id, subject, unread, count=len(unread), kinds=", ".join(kinds), day=subject
        )


CHECK = Check(
    id="written_by_newer_version",
    severity=Severity.NOTE,
    problem="Entries were written by a newer version of the app.",
    why="They are kept and passed on as they are, but no figure or check here counts them.",
    cure="Bring this tablet to the newer version; nothing is lost until then.",
    message="Entries of {day} that this version cannot read: {count} ({kinds}).",
    watches={"*": _day_if_unread},
    subjects=_subjects,
    examine=_examine,
)
