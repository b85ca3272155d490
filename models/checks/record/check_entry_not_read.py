"""entry_not_read: entries that no version of the app can read, or that fit nowhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.entry_names import names_of
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bounds import UNREADABLE
from models.entries.envelope import AnyEntry
from models.state.indexes import UNREAD
from models.state.job_state import JobState


def _day_if_not_read(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return (entry.day,) if entry.unfit in UNREADABLE else ()


def _subjects(state: JobState) -> Iterable[str]:
    return {entry.day for entry in state.current(UNREAD) if entry.unfit in UNREADABLE}


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    unread = [
        entry
        for entry in state.days.get(subject, ())
        if entry.unfit in UNREADABLE and not state.is_struck(entry.id)
    ]
    if unread:
        yield make_finding(
            CHECK.id, subject, unread, count=len(unread), which=names_of(unread), day=subject
        )


CHECK = Check(
    id="entry_not_read",
    severity=Severity.FIX,
    problem="Entries can't be read.",
    why="What they say does not fit their kind, or their day or time is none. They are kept and "
    "passed on as they are, but no figure or check here counts them.",
    cure="Ask who wrote it what was meant, and write it once more.",
    message="Entries of {day} that can't be read: {count} ({which}).",
    watches={"*": _day_if_not_read},
    subjects=_subjects,
    examine=_examine,
)
