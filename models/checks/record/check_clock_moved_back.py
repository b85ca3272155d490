"""clock_moved_back: an entry is dated before the one its tablet wrote just before it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bounds import UNTIMED
from models.entries.envelope import AnyEntry
from models.state.job_state import JobState

SETTLING_MS = 2 * 60_000
"""A clock that sets itself by the network moves by seconds: common practice, no source."""


def _with_the_next(state: JobState, entry: AnyEntry) -> Iterable[str]:
    turns = state.streams[entry.stream]
    after = bisect_left(turns, (entry.seq + 1, ""))
    return (entry.id, *(entry_id for _, entry_id in turns[after : after + 1]))


def _subjects(state: JobState) -> Iterable[str]:
    """Entries dated well before the one that came before them: the others cannot be at fault."""
    entries = state.entries
    for turns in state.streams.values():
        last_ms = 0
        for _, entry_id in turns:
            at_ms = entries[entry_id].at_ms
            if at_ms < last_ms - SETTLING_MS:
                yield entry_id
            last_ms = at_ms


def _before(state: JobState, entry: AnyEntry) -> AnyEntry | None:
    """The entry that the tablet wrote just before."""
    turns = state.streams[entry.stream]
    place = bisect_left(turns, (entry.seq, ""))
    return state.entries[turns[place - 1][1]] if place else None


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = state.entries.get(subject)
    if entry is None or state.is_struck(subject):
        return
    before = _before(state, entry)
    if before is None or {entry.unfit, before.unfit} & UNTIMED:
        return  # one of the two has no time of its own, which is told as such
    if entry.at_ms < before.at_ms - SETTLING_MS:
        yield make_finding(
            CHECK.id,
            subject,
            [before, entry],
            author=entry.author,
            at=entry.written_at(),
            after=before.written_at(),
        )


CHECK = Check(
    id="clock_moved_back",
    severity=Severity.NOTE,
    problem="A tablet's clock was moved back between two entries.",
    why="One of the two times is wrong, and maybe the day as well.",
    cure="Set the clock right, and say in a note when the work was really done.",
    message="An entry by {author} is dated {at}, though the same tablet wrote at {after} "
    "before it.",
    watches={"*": _with_the_next},
    subjects=_subjects,
    examine=_examine,
)
