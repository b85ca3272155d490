"""could_not_check: a check that failed on an entry of the book, reported as a finding."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import TracebackType

from models.checks.entry_names import names_of
from models.checks.finding import AnyCheck, Check, Finding, Severity
from models.entries.body import Body
from models.entries.envelope import AnyEntry, Entry
from models.state.job_state import JobState

MOST_ENTRIES = 20


def _nothing(state: JobState) -> Iterable[str]:
    """No subject: the board finds it where another check fails."""
    return ()


def _no_finding(state: JobState, subject: str) -> Iterator[Finding]:
    return iter(())


COULD_NOT_CHECK = Check(
    id="could_not_check",
    severity=Severity.FIX,
    problem="A check could not be made.",
    why="Something in the book was too much for it, so nobody looked whether this is in order.",
    cure="Look at it by eye, and at the entries named; if one of them is a slip, strike it.",
    message="Could not be checked: {check} of {subject}, at {which}.",
    watches={},
    subjects=_nothing,
    examine=_no_finding,
)


def failed_check_finding(
    check: AnyCheck, subject: str, state: JobState, fault: BaseException
) -> Finding:
    """Make the finding that a check failed, with the entries that it was looking at."""
    entries = sorted(_looked_at(state, fault), key=lambda entry: (entry.lc, entry.id))
    if not entries:
        entries = _watched(check, subject, state)
    entries = entries[-MOST_ENTRIES:]
    days = [entry.day for entry in entries] or list(state.days) or [""]
    return Finding(
        COULD_NOT_CHECK.id,
        check.id,
        subject,
        {
            "check": check.id.replace("_", " "),
            "subject": subject or "the whole job",
            "which": names_of(entries) or "no entry",
        },
        tuple(entry.id for entry in entries),
        max(days),
    )


def _looked_at(state: JobState, fault: BaseException) -> list[AnyEntry]:
    """Entries that stood, or whose bodies stood, in a name of the code that failed."""
    in_hand: dict[int, None] = {}
    trace: TracebackType | None = fault.__traceback__
    while trace is not None:
        for value in trace.tb_frame.f_locals.values():
            if isinstance(value, Entry | Body):
                in_hand[id(value)] = None
        trace = trace.tb_next
    return [
        entry
        for entry in state.entries_in_order()
        if id(entry) in in_hand or (entry.body is not None and id(entry.body) in in_hand)
    ]


def _watched(check: AnyCheck, subject: str, state: JobState) -> list[AnyEntry]:
    """Entries that would have the check look at a subject: one of them was too much for it."""
    found = []
    for entry in state.entries_in_order():
        if entry.body is not None and (subjects := check.watches.get(entry.kind)) is not None:
            try:
                if not subject or subject in subjects(state, entry):
                    found.append(entry)
            except Exception:  # that may be the very entry
                found.append(entry)
    return found
