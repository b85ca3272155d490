"""Flag board: findings of every check, kept up to date entry by entry."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from models.checks.failed_check import failed_check_finding
from models.checks.finding import AnyCheck, Finding, Severity, Subjects
from models.checks.registry import CHECKS, severity_of
from models.entries.bodies.day import Disposition
from models.entries.envelope import AnyEntry, Entry
from models.entries.kind_names import DISPOSITION
from models.state.gc_pause import gc_paused
from models.state.job_state import JobState

_WEIGHT = {Severity.STOP: 0, Severity.FIX: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True)
class Flag:
    """A finding and its answer: the disposition entry, or None while it is open.

    ``lapsed`` is an earlier answer that was given for other figures.
    """

    finding: Finding
    answer: Entry[Disposition] | None = None
    lapsed: Entry[Disposition] | None = None

    @property
    def severity(self) -> Severity:
        """Weight of the flag's finding."""
        return severity_of(self.finding)


class FlagBoard:
    """Findings of a set of checks over one job.

    ``take`` costs what the subjects touched by one entry cost; ``rebuild``
    looks at every subject. Both end in the same board, which a test holds.
    """

    def __init__(self, state: JobState, checks: tuple[AnyCheck, ...] = CHECKS) -> None:
        self.state = state
        self.checks = checks
        self._found: dict[tuple[str, str], tuple[Finding, ...]] = {}
        self._watchers: dict[str, list[tuple[AnyCheck, Subjects]]] = defaultdict(list)
        for check in checks:
            for kind, subjects in check.watches.items():
                self._watchers[kind].append((check, subjects))
        self.rebuild()

    def rebuild(self) -> None:
        """Run every check on every subject."""
        self._found.clear()
        with gc_paused():
            for check in self.checks:
                for subject in self._subjects(check):
                    self._examine(check, subject)

    def _subjects(self, check: AnyCheck) -> Iterable[str]:
        """Every subject of a check; where they can't be told, that is a finding of its own."""
        try:
            return list(check.subjects(self.state))
        except Exception as fault:
            self._found[(check.id, "")] = (failed_check_finding(check, "", self.state, fault),)
            return ()

    def update(self, entry: AnyEntry) -> tuple[list[Finding], list[Finding]]:
        """Run the checks that an entry affects again; return findings come and gone.

        New ones come before those whose figures alone have changed.
        The entry is in the job state already. An entry that strikes others
        touches what they touched, and one that comes in after what corrects it
        touches that too, since the correction moves to its place.
        """
        before: dict[str, Finding] = {}
        after: dict[str, Finding] = {}
        for check, subject in self._touched(entry):
            before.update({found.key: found for found in self._found.get((check.id, subject), ())})
            self._examine(check, subject)
            after.update({found.key: found for found in self._found.get((check.id, subject), ())})
        come = [found for key, found in after.items() if found != before.get(key)]
        gone = [found for key, found in before.items() if key not in after]
        return sorted(come, key=lambda found: found.key in before), gone

    def _touched(self, entry: AnyEntry) -> Iterable[tuple[AnyCheck, str]]:
        touched: dict[tuple[str, str], AnyCheck] = {}
        struck = [self.state.entries[id] for id in entry.strikes if id in self.state.entries]
        strikers = self.state.strikers_of(entry) if self.state.is_struck(entry.id) else ()
        for one in (entry, *struck, *strikers):
            # the body of an entry of a newer version can't be read, only its envelope
            own = () if one.body is None else self._watchers[one.kind]
            for check, subjects in (*own, *self._watchers["*"]):
                try:
                    for subject in subjects(self.state, one):
                        touched[(check.id, subject)] = check
                except Exception:  # then all of them are looked at
                    touched.update({(check.id, name): check for name in self._subjects(check)})
        return [(check, subject) for (_, subject), check in touched.items()]

    def _examine(self, check: AnyCheck, subject: str) -> None:
        try:
            found = tuple(check.examine(self.state, subject))
        except Exception as fault:  # one entry costs one check of one subject
            found = (failed_check_finding(check, subject, self.state, fault),)
        if found:
            self._found[(check.id, subject)] = found
        else:
            self._found.pop((check.id, subject), None)

    def findings_about(self, check: str, subject: str) -> tuple[Finding, ...]:
        """Findings of one check about one subject; a failed check is a finding of its own."""
        return tuple(one for one in self._found.get((check, subject), ()) if one.check == check)

    def findings(self) -> list[Finding]:
        """Every finding, answered or not, in no particular order."""
        return [finding for found in self._found.values() for finding in found]

    def flags(self) -> list[Flag]:
        """Every flag with its answer: open ones first, worst first, then by day and key."""
        flags = [self.flag(finding) for finding in self.findings()]
        return sorted(
            flags,
            key=lambda flag: (
                flag.answer is not None,
                _WEIGHT[flag.severity],
                flag.finding.day,
                flag.finding.key,
            ),
        )

    def open_flags(self) -> list[Flag]:
        """Flags that nobody has answered yet, worst first."""
        return [flag for flag in self.flags() if flag.answer is None]

    def flag(self, finding: Finding) -> Flag:
        """A finding with its answer: it holds for the figures it was given for."""
        answers = self.state.current(DISPOSITION, finding.key)
        if not answers:
            return Flag(finding)
        last = answers[-1]
        if last.body.figures == finding.figures:
            return Flag(finding, answer=last)
        return Flag(finding, lapsed=last)
