"""Checks and findings: what a check looks at, and the faults that it reports."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Generic

from models.entries.envelope import AnyEntry
from models.entries.index import K
from models.entries.keys import LineKey, split_key
from models.units.filled_text import Fact

if TYPE_CHECKING:
    from models.state.job_state import JobState

Subjects = Callable[["JobState", AnyEntry], Iterable[str]]


class Severity(StrEnum):
    """Weight of a finding: stop, fix or note."""

    STOP = "stop"
    """Do not cover, or do not go on, before it is answered."""
    FIX = "fix"
    """Put right before the day is closed."""
    NOTE = "note"
    """Worth knowing."""


@dataclass(frozen=True, slots=True)
class Finding:
    """A fault in recorded data: its check, its subject, and the facts.

    ``subject`` is what the check looks at as a whole (a pass, a collector, a
    day); ``place`` tells several findings of one subject apart. ``facts`` fill
    the check's sentence: whole numbers in named units, and words.
    ``entries`` are the ids of the entries that it rests on, newest last. ``saying`` names
    the one of the check's messages that says it, where it has several. ``severity`` is
    its own weight, where that is not its check's.
    """

    check: str
    subject: str
    place: str = ""
    facts: Mapping[str, Fact] = field(default_factory=dict)
    entries: tuple[str, ...] = ()
    day: str = ""
    saying: str = ""
    severity: Severity | None = None

    @property
    def key(self) -> str:
        """Stable name of this flag, by which it is answered."""
        return f"{self.check}/{self.subject}" + (f"/{self.place}" if self.place else "")

    @property
    def figures(self) -> str:
        """Digest of the facts: an answer holds for the figures it was given for."""
        told = "|".join(f"{name}={self.facts[name]}" for name in sorted(self.facts))
        return hashlib.sha256(told.encode()).hexdigest()[:16]


@dataclass(frozen=True, slots=True)
class Check(Generic[K]):
    """A check: the subjects it looks at, when, and the sentence of its finding.

    Parameters
    ----------
    id
        Stable name, also the name of its file: named for the fault.
    severity
        How its findings weigh.
    problem
        The fault in one sentence, without figures.
    why
        Why it matters.
    cure
        What to do now.
    message
        The finding in one sentence; ``{depth_nm:depth}`` and the like are
        written in the job's units by models.checks.finding_text.
    watches
        Kind of entry to the subjects that a new or struck entry of it touches.
    subjects
        Every subject there is to look at.
    examine
        The findings about one subject as the job stands now. Its cost depends
        on the subject alone, never on the length of the job.
    messages
        Messages by their names, of a check that has several.
    cures
        What to do now where a finding says something else, by the name of its message.
    """

    id: str
    severity: Severity
    problem: str
    why: str
    cure: str
    message: str
    watches: Mapping[str, Subjects]
    subjects: Callable[[JobState], Iterable[K]]
    examine: Callable[[JobState, K], Iterator[Finding]]
    messages: Mapping[str, str] = field(default_factory=dict)
    cures: Mapping[str, str] = field(default_factory=dict)

    def text_of(self, finding: Finding) -> str:
        """Message template for a finding of this check."""
        return self.messages.get(finding.saying, self.message)

    def cure_of(self, finding: Finding) -> str:
        """Instruction for a finding of this check: do this now."""
        return self.cures.get(finding.saying, self.cure)


AnyCheck = Check[Any]
"""A check of whatever subjects."""


def make_finding(
    check: str, subject: str, rests_on: Sequence[AnyEntry], place: str = "", **facts: Fact
) -> Finding:
    """Finding of a check, dated by the newest entry that it rests on."""
    newest = max(rests_on, key=lambda entry: (entry.lc, entry.id))
    ids = tuple(entry.id for entry in rests_on)
    return Finding(check, subject, place, facts, ids, newest.day)


def line_finding(check: str, key: LineKey, rests_on: Sequence[AnyEntry], **facts: Fact) -> Finding:
    """Finding of a check about one line; its facts name the line and its surface."""
    surface_id, line_id = split_key(key)
    return make_finding(
        check, key, rests_on, place="", line_id=line_id, surface_id=surface_id, **facts
    )
