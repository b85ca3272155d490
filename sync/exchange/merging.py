"""Merging of saved segments into the book: judged all together first, then taken in singly."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from models.book.errors import EntryClashError
from models.book.row import GENESIS, Row
from models.entries.tablet_code import code_of
from models.errors import CrewError
from sync.exchange.entry_source import EntrySource
from sync.exchange.errors import ClashError, EarlierJobError, ForkGapError, GapError
from sync.exchange.exchange_log import ExchangeLog
from sync.exchange.job_folder import JobFolder
from sync.exchange.pending import (
    Pending,
    find_founding,
    find_job,
    heads_allowed,
    is_before_founding,
    note_pending,
    refusal_reason,
    settle_members,
)
from sync.exchange.progress import ProgressReporter
from sync.segments.errors import SegmentBytesError, SegmentError, SegmentTooNewError
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment
from sync.trust.members import Job, Members

OnRows = Callable[[Sequence[Row]], None]
_Read = tuple[Pending, list[Row]]

BATCH_ROWS: Final = 20_000  # rows to a transaction: each costs a sync of the disk


@dataclass(slots=True)
class MergeResult:
    """Result of a merge: the list of tablets, and how many segments and rows came in."""

    members: Members
    segments: int = 0
    rows: int = 0  # that were new


@dataclass(frozen=True, slots=True)
class MergeRules:
    """Rules for merging segments into a book.

    ``on_rows`` is given the rows of each segment after they are in, known ones among them.
    ``own_stream`` is what this tablet writes now; ``on_own_rows`` is called before anything
    is taken in if segments hold entries of it that are not here: another tablet writes, or
    wrote, under its identity.
    """

    over_gaps: bool = False
    on_rows: OnRows | None = None
    own_stream: str = ""
    on_own_rows: Callable[[], None] | None = None


def merge(
    source: EntrySource,
    place: JobFolder,
    log: ExchangeLog,
    job: Job,
    rules: MergeRules,
    steps: ProgressReporter,
) -> MergeResult:
    """Take every kept segment in that may come in; note for each other one why not.

    Safe to cut anywhere: each segment goes in whole or not at all, and what is in already
    is met again without harm. Memory holds a few segments at a time.

    Raises
    ------
    models.book.errors.BookError
        If the book itself can't take rows; segments before are in.
    """
    work = _Merge(source, place, log, rules, steps)
    pending = work.open_all(job)
    job = log.remember_job(find_job(job, pending))
    members = settle_members(source, job, pending)
    allowed = heads_allowed(members, pending)
    founding = find_founding(job, pending, source)
    welcome: list[Pending] = []
    for one in pending:
        why: CrewError | None = refusal_reason(one, members, allowed, source)
        if why is None and is_before_founding(one, founding):
            why = EarlierJobError(name=one.name.text, tablet=code_of(one.name.stream))
        if why is None:
            welcome.append(one)
        else:
            log.reject(one.name, why)
    work.watch_identity(welcome)
    done = MergeResult(members)
    for one in work.take_all(welcome, done):
        log.reject(one.name, work.gap_before(one))
    return done


@dataclass(frozen=True, slots=True)
class _Merge:
    """One merging in hand."""

    source: EntrySource
    place: JobFolder
    log: ExchangeLog
    rules: MergeRules
    steps: ProgressReporter

    def open_all(self, job: Job) -> list[Pending]:
        """Open every kept segment that is not in yet; set aside what does not hold."""
        heads = self.source.heads()
        names = sorted(
            name
            for name in self.place.names()
            # A book put back from a backup may have lost what was taken in before.
            if str(name) not in self.log.taken or heads.get(name.stream, (0, b""))[0] < name.last
        )
        pending: list[Pending] = []
        for number, name in enumerate(names):
            self.steps.next_step("open", number, len(names))
            try:
                segment = open_segment(name, self.place.read(name), job.key)
                pending.append(note_pending(segment, job.key))
            except SegmentBytesError as fault:
                self.log.damaged.add(str(name))
                self.log.reject(name, fault)
            except SegmentTooNewError as fault:
                self.log.reject(name, fault)
            except SegmentError as fault:
                self.log.reject(name, fault, is_final=True)
        return pending

    def watch_identity(self, welcome: Sequence[Pending]) -> None:
        """Call out if segments hold entries of this tablet's own stream that are not here."""
        for one in welcome:
            name = one.name
            if name.stream != self.rules.own_stream or self.rules.on_own_rows is None:
                continue
            if one.head not in self.source.hashes_at(name.stream, name.last):
                self.rules.on_own_rows()
                return

    def take_all(self, welcome: Sequence[Pending], done: MergeResult) -> list[Pending]:
        """Take in what follows from what is here, round by round; return what still waits."""
        waiting, known = list(welcome), {GENESIS}
        while waiting:
            left: list[Pending] = []
            batch: list[_Read] = []
            for number, one in enumerate(waiting):
                if not self._is_next(one, known):
                    left.append(one)
                    continue
                self.steps.next_step("merge", number, len(waiting))
                rows = self._read(one.name)
                if rows is not None:
                    batch.append((one, rows))
                    known.add(one.head)
                if sum(len(rows) for _, rows in batch) >= BATCH_ROWS:
                    left += self._put(batch, known, done)
                    batch = []
            left += self._put(batch, known, done)
            if len(left) == len(waiting):
                break
            waiting = left
        return waiting

    def _is_next(self, one: Pending, known: set[bytes]) -> bool:
        before = one.name.first - 1
        return (
            one.prev in known
            or self.rules.over_gaps
            or one.prev in self.source.hashes_at(one.name.stream, before)
        )

    def _read(self, name: SegmentName) -> list[Row] | None:
        try:
            return open_segment(name, self.place.read(name)).rows()
        except SegmentError as fault:
            is_final = not isinstance(fault, SegmentBytesError)
            self.log.reject(name, fault, is_final=is_final)
            return None

    def _put(self, batch: list[_Read], known: set[bytes], done: MergeResult) -> list[Pending]:
        """Put segments into the book together; return those that have to wait after all."""
        if not batch:
            return []
        try:
            done.rows += self.source.import_rows([row for _, rows in batch for row in rows])
        except EntryClashError as fault:
            if len(batch) > 1:
                return self._put_singly(batch, known, done)
            name = batch[0][0].name
            known.discard(batch[0][0].head)
            self.log.reject(name, ClashError(name=name.text, id=fault.context["id"]))
            return []
        for one, rows in batch:
            self.log.mark_accepted(one.name)
            done.segments += 1
            if self.rules.on_rows is not None:
                self.rules.on_rows(rows)
        return []

    def _put_singly(
        self, batch: list[_Read], known: set[bytes], done: MergeResult
    ) -> list[Pending]:
        """Put segments in one by one, since one of them can't: what follows from it waits."""
        known.difference_update(one.head for one, _ in batch)
        left: list[Pending] = []
        for one, rows in batch:
            if self._is_next(one, known):
                known.add(one.head)
                left += self._put([(one, rows)], known, done)
            else:
                left.append(one)
        return left

    def gap_before(self, one: Pending) -> CrewError:
        """Say what is missing before a segment."""
        name = one.name
        tablet = code_of(name.stream)
        if self.source.hashes_at(name.stream, name.first - 1):
            return ForkGapError(name=name.text, before=name.first - 1, tablet=tablet)
        held, _ = self.source.heads().get(name.stream, (0, b""))
        first = held + 1 if held < name.first else 1
        return GapError(name=name.text, first=first, last=name.first - 1, tablet=tablet)
