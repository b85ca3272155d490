"""The open job: its book, its state and its flags, kept in step."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from uuid6 import uuid7

from crewapp.tablet.clock import Clock, Moment
from crewapp.tablet.saved_heads import SavedHeads, missing_entries
from models.book.errors import CommitUncertainError
from models.book.row import Draft, Row, entry_of
from models.book.store import Book
from models.checks.finding import Finding
from models.checks.flag_board import FlagBoard
from models.checks.severity_change import exceeds_announced
from models.entries.bodies.job import Job
from models.entries.body import Body
from models.entries.envelope import AnyEntry, body_fields, body_needs
from models.entries.kinds import KINDS
from models.entries.unknown_fields import carried_over, needs_of
from models.errors import CrewError
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of

ON_A_CLOSED_DAY = frozenset({"day_reopened", "signature", "tablet_added", "tablet_revoked"})
"""Kinds that may still be written for a day that stands closed."""


class DayClosedError(CrewError, ValueError):
    """The day that an entry belongs to is closed."""

    code = "day.closed"
    sentence = (
        "Nothing was written: {day} is closed and its sheet stands. "
        "Reopen the day with a reason, then write it again."
    )


@dataclass(frozen=True, slots=True)
class NewEntry:
    """Entry about to be inked: its body, what it strikes and why.

    ``follows`` names entries that it takes the place of without striking them.
    """

    body: Body
    strikes: tuple[str, ...] = ()
    reason: str = ""
    day: str | None = None
    follows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class JobChanges:
    """Changes of a command: entries inked, findings that came and went.

    ``to_tell`` are those that came and are new, or grew worse since they were told.
    """

    entries: tuple[AnyEntry, ...]
    come: tuple[Finding, ...] = ()
    gone: tuple[Finding, ...] = ()
    to_tell: tuple[Finding, ...] = ()

    @property
    def kinds(self) -> frozenset[str]:
        """Kinds of entry that changed; a screen redraws if one concerns it."""
        return frozenset(entry.kind for entry in self.entries)


class OpenJob:
    """Open book with its job state and flag board.

    Every action writes through ``ink``: durable first, then state and flags.
    """

    def __init__(
        self,
        book: Book,
        clock: Clock,
        author: str,
        new_id: Callable[[], str] = lambda: str(uuid7()),
    ) -> None:
        self.book = book
        self.clock = clock
        self.author = author
        self.new_id = new_id
        self.stream = ""  # what this tablet writes; "" where it is not told
        self.heads: SavedHeads | None = None  # keeps how far its entries have come
        self.read_anew()
        self._unsettled: tuple[tuple[NewEntry, ...], list[Draft]] | None = None
        if book.read_only_reason is None:
            book.refresh_views(KINDS)  # so that any SQL tool can read it

    @classmethod
    def open(cls, path: Path, clock: Clock, author: str, stream: str) -> OpenJob:
        """Open or make the book at ``path``.

        Raises
        ------
        models.book.errors.BookError
            If the book can't be opened; the file is as it was.
        """
        opens = Book.open if path.exists() else Book.create
        job = cls(opens(path, stream=stream), clock, author)
        job.stream = stream
        return job

    def keep_heads(self, folder: Path) -> str:
        """Keep from now on how far this tablet's entries have come; tell what is missing.

        A book that lacks entries is not kept anew: it is told until they are back.
        """
        heads = SavedHeads(folder)
        missing = missing_entries(self.book, heads)
        self.heads = None if missing else heads
        return " ".join(map(str, missing))

    def switch_stream(self, stream: str) -> None:
        """Write into another stream from now on: this tablet took a new identity."""
        self.book.switch_stream(stream)
        self.stream = stream

    def read_anew(self) -> None:
        """Fold the whole book again: entries of other tablets came into it."""
        self.state = JobState(map(entry_of, self.book.rows()))
        self.state.now_ms = self.clock.now().at_ms
        self.board = FlagBoard(self.state)
        self._told = {found.key: self._as_told(found) for found in self.board.findings()}

    @property
    def figures(self) -> Figures:
        """Units of this job."""
        job = self.state.job
        return figures_of(job.unit_system, job.station_style) if job else Figures()

    @property
    def name(self) -> str:
        """Name of the job, or of its file while it has none."""
        job = self.state.job
        return job.name if job else self.book.path.stem

    def ink(self, *writings: NewEntry) -> JobChanges:
        """Write entries, all or none; they are durable when this returns.

        Raises
        ------
        DayClosedError
            If one belongs to a day that stands closed; nothing is written.
        models.book.errors.CommitUncertainError
            If the book could not confirm the writing.
        """
        moment = self.clock.now()
        for writing in writings:
            day = writing.day or moment.day
            if writing.body.kind not in ON_A_CLOSED_DAY and self.state.is_closed(day):
                raise DayClosedError(day=day)
        settled = self._settle(moment)
        if settled is not None and settled[0] == writings:
            return settled[1]  # the same tap again: it is the first one that counts
        drafts = [self._draft(writing, moment) for writing in writings]
        return self._put_down(writings, drafts, moment)

    def _put_down(
        self, writings: tuple[NewEntry, ...], drafts: list[Draft], moment: Moment
    ) -> JobChanges:
        """Ink drafts; if it can't be told whether they are written, keep them for later."""
        try:
            rows = self.book.commit_all(drafts)
        except CommitUncertainError:
            self._unsettled = (writings, drafts)
            raise
        return self._take(rows, moment)

    def _settle(self, moment: Moment) -> tuple[tuple[NewEntry, ...], JobChanges] | None:
        """Ink once more, under the same ids, what could not be confirmed before."""
        if self._unsettled is None:
            return None
        writings, drafts = self._unsettled
        self._unsettled = None
        return writings, self._put_down(writings, drafts, moment)

    def _draft(self, writing: NewEntry, moment: Moment) -> Draft:
        body = writing.body
        olds = self._replaced(writing)
        needs = body_needs(body).union(*map(needs_of, olds))
        return Draft(
            id=self.new_id(),
            kind=body.kind,
            v=KINDS[body.kind].version,
            body=carried_over(body_fields(body), olds),
            at_ms=moment.at_ms,
            offset_min=moment.offset_min,
            zone=moment.zone,
            author=self.author,
            job=self._job_id(writing),
            day=writing.day or moment.day,
            strikes=writing.strikes,
            reason=writing.reason,
            needs=tuple(sorted(needs)),
        )

    def _replaced(self, writing: NewEntry) -> list[AnyEntry]:
        """Entries of its kind that a writing takes the place of."""
        ids = (*writing.strikes, *writing.follows)
        found = (self.state.entries.get(id) for id in ids)
        return [old for old in found if old is not None and old.kind == writing.body.kind]

    def _job_id(self, writing: NewEntry) -> str:
        job = self.state.job
        if job is not None:
            return job.job_id
        if isinstance(writing.body, Job):
            return writing.body.job_id
        return self.book.path.stem.encode("utf-8", "replace").decode()  # a name may be any bytes

    def _take(self, rows: Sequence[Row], moment: Moment) -> JobChanges:
        self.state.now_ms = moment.at_ms
        if self.heads is not None and rows:
            self.heads.keep(self.book.path, rows[-1])
        entries = tuple(map(entry_of, rows))
        come: dict[str, Finding] = {}
        gone: dict[str, Finding] = {}
        rebuilds = self.state.rebuilds
        for entry in entries:
            self.state.add(entry)
        if self.state.rebuilds != rebuilds:  # one of them fits nowhere, so all was folded anew
            entries = tuple(self.state.entries[entry.id] for entry in entries)
            come, gone = self._looked_at_anew()
        else:
            for entry in entries:
                new, over = self.board.update(entry)
                come.update({finding.key: finding for finding in new})
                gone.update({finding.key: finding for finding in over})
        to_tell = tuple(finding for finding in come.values() if self._is_news(finding))
        for key in gone.keys() - come.keys():
            self._told.pop(key, None)
        self._told.update({finding.key: self._as_told(finding) for finding in to_tell})
        return JobChanges(entries, tuple(come.values()), tuple(gone.values()), to_tell)

    def _looked_at_anew(self) -> tuple[dict[str, Finding], dict[str, Finding]]:
        """Run every check once more; return the findings come and gone, by their keys."""
        before = {finding.key: finding for finding in self.board.findings()}
        self.board.rebuild()
        after = {finding.key: finding for finding in self.board.findings()}
        come = {key: finding for key, finding in after.items() if finding != before.get(key)}
        return come, {key: finding for key, finding in before.items() if key not in after}

    def _is_news(self, finding: Finding) -> bool:
        """Whether nobody was told yet that it stands, stands so badly, or stands again."""
        told, answer = self._told.get(finding.key, (None, ""))
        return (
            told is None or exceeds_announced(finding, told) or self._as_told(finding)[1] != answer
        )

    def _as_told(self, finding: Finding) -> tuple[Finding, str]:
        """A finding with the answer that it has outgrown."""
        lapsed = self.board.flag(finding).lapsed
        return finding, lapsed.id if lapsed is not None else ""

    def close(self) -> None:
        """Let go of the book."""
        self.book.close()
