"""entry_in_the_future: a tablet whose clock runs ahead of this one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bounds import UNTIMED
from models.entries.envelope import AnyEntry
from models.state.job_state import JobState

AHEAD_MS = 10 * 60_000
"""Two tablets set by hand differ by minutes: common practice, no source."""


def _stream_of(state: JobState, entry: AnyEntry) -> Iterable[str]:
    return (entry.stream,)


def _subjects(state: JobState) -> Iterable[str]:
    return list(state.streams)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    """Look from the newest entry back; a clock set right since is told as moved back."""
    if state.now_ms is None:
        return
    ahead = []
    for _, entry_id in reversed(state.streams.get(subject, ())):
        entry = state.entries[entry_id]
        if entry.at_ms <= state.now_ms + AHEAD_MS:
            break
        if not state.is_struck(entry_id) and entry.unfit not in UNTIMED:
            ahead.append(entry)
    if ahead:
        first = ahead[-1]
        yield make_finding(
            CHECK.id,
            subject,
            ahead[::-1],
            count=len(ahead),
            author=first.author,
            at=first.written_at(),
        )


CHECK = Check(
    id="entry_in_the_future",
    severity=Severity.NOTE,
    problem="Entries carry a time that has not come yet.",
    why="Order in the book does not hang on clocks, but the day an entry belongs to does, and "
    "so do the hours on the sheet.",
    cure="Set the clock of one of the two tablets right, and see that the entries stand on "
    "the right day.",
    message="Entries from a clock that runs ahead of this one: {count}, by {author}, the first "
    "dated {at}.",
    watches={"*": _stream_of},
    subjects=_subjects,
    examine=_examine,
)
