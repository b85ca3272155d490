"""struck_twice: two entries that both stand strike the same one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.envelope import AnyEntry
from models.state.job_state import JobState


def _struck_by_it(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """What an entry strikes, and itself: it may have been struck before it came in."""
    return (entry.id, *entry.strikes)


def _subjects(state: JobState) -> Iterable[str]:
    return [struck for struck, strikers in state.struck_by.items() if len(strikers) > 1]


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    standing = sorted(
        (
            state.entries[striker]
            for striker in state.struck_by.get(subject, ())
            if not state.is_struck(striker)
        ),
        key=state.place_of,
    )
    in_its_place = [striker for striker in standing if striker.kind != "struck"]
    if len(standing) < 2 or not in_its_place:
        return  # two that only cross it out say the same
    yield make_finding(
        CHECK.id,
        subject,
        standing,
        kind=in_its_place[0].kind.replace("_", " "),
        count=len(standing),
        author=standing[0].author,
        other=standing[-1].author,
    )


CHECK = Check(
    id="struck_twice",
    severity=Severity.FIX,
    problem="Two corrections of one entry both stand.",
    why="Both count, so a reading is in the book twice or in two values.",
    cure="Strike the one that is wrong.",
    message="A {kind} was struck more than once, by {author} and by {other}; corrections that "
    "stand: {count}.",
    watches={"*": _struck_by_it},
    subjects=_subjects,
    examine=_examine,
)
