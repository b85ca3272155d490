"""reading_without_pass: probes and sand of a pass that is not in the book, or not any more."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected import pass_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import PASS, PROBE, SAND_PLACED
from models.state.job_state import JobState

_KINDS = (PROBE, SAND_PLACED)


def _subjects(state: JobState) -> Iterable[str]:
    named = dict.fromkeys(name for kind in _KINDS for name in state.every_name(kind))
    return [name for name in named if name]  # sand put in a whole surface names no pass


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    left = [entry for kind in _KINDS for entry in state.current(kind, subject)]
    if subject and left and not state.current(PASS, subject):
        yield make_finding(CHECK.id, subject, left, pass_id=subject, count=len(left))


CHECK = Check(
    id="reading_without_pass",
    severity=Severity.FIX,
    problem="Probes or sand name a pass that is not in the book.",
    why="Depths count only through their pass; without it they say nothing of any line, and a "
    "shallow one among them is told nobody.",
    cure="Write the pass down, or strike what was logged for it.",
    message="There is no pass {pass_id}, and probes or sand of it stand in the book: {count}.",
    watches=dict.fromkeys(("pass", "probe", "sand_placed"), pass_of_entry),
    subjects=_subjects,
    examine=_examine,
)
