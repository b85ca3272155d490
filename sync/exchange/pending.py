"""Segments that are saved here and not in the book yet: opened once, judged together."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from models.book.row import Row
from models.entries.bodies.tablets import TabletRevoked
from models.entries.tablet_code import code_of
from sync.exchange.entry_source import EntrySource, statements_in
from sync.exchange.errors import RevokedTabletError, UnknownTabletError
from sync.exchange.job_key import is_founded_by
from sync.segments.file_name import SegmentName
from sync.segments.reader import Segment
from sync.trust.members import (
    STATEMENT_KINDS,
    Head,
    Job,
    Members,
    Statement,
    fold_members,
    may_change_list,
    statement_of,
)

Turn = tuple[int, str]  # place in the order of entries
_SIGNS = (b'"kind":"tablet_', b'"kind":"job"')  # a text that looks so does no harm


@dataclass(frozen=True, slots=True)
class Pending:
    """Facts on an opened segment that are held until all are judged."""

    name: SegmentName
    prev: bytes
    head: bytes
    statements: tuple[Statement, ...] = ()
    founding: Turn | None = None  # place of the entry that the job's key was made from, if in here
    first_job: Turn | None = None  # place of its first entry of kind job


def note_pending(segment: Segment, key: str) -> Pending:
    """Note the facts on a segment that judging it and the others needs.

    Raises
    ------
    SegmentEntryError
        If it may hold something about the list of tablets and an entry of it can't stand.
    """
    header = segment.header
    statements: list[Statement] = []
    jobs: dict[Turn, bool] = {}  # each entry of kind job, and whether the key was made from it
    if any(sign in line for line in segment.lines for sign in _SIGNS):
        for row in segment.rows():
            if row.kind in STATEMENT_KINDS:
                statements += _statement(row)
            elif row.kind == "job":
                jobs[row.lc, row.id] = is_founded_by(key, row)
    founding = next((turn for turn, is_first in jobs.items() if is_first), None)
    first = min(jobs, default=None)
    return Pending(segment.name, header.prev, header.head, tuple(statements), founding, first)


def _statement(row: Row) -> list[Statement]:
    found = statement_of(row)
    return [] if found is None else [found]


def find_job(job: Job, pending: Iterable[Pending]) -> Job:
    """Return the job, its founder read from segments if only its key was known."""
    if job.founder:
        return job
    founder = next((one.name.stream for one in pending if one.founding), "")
    return Job(founder, job.key)


def find_founding(job: Job, pending: Iterable[Pending], source: EntrySource) -> Turn | None:
    """Return the place of the entry by which the job was founded, None if it is not here."""
    rows = source.of_kinds(["job"])
    held = ((row.lc, row.id) for row in rows if is_founded_by(job.key, row))
    return next(held, None) or next((one.founding for one in pending if one.founding), None)


def is_before_founding(one: Pending, founding: Turn | None) -> bool:
    """Whether a segment gives the job an entry before the one that founded it.

    A book without its notes tells its founder by the first entry of kind job, and whoever
    writes for a job has met that one, so that what is honest comes after it.
    """
    return founding is not None and one.first_job is not None and one.first_job < founding


def settle_members(source: EntrySource, job: Job, pending: Collection[Pending]) -> Members:
    """Work out the list of tablets from the book and from all pending segments together.

    A statement in a segment counts if the segment would be taken in by the list that the
    statement itself may change; so this goes round until the list holds still. In each round
    those who are taken off lose their say before anyone is added.
    """
    told = statements_in(source)
    members = fold_members(job, told)
    telling = [one for one in pending if one.statements]
    for _ in range(len(telling) + 2):
        heard = _heard(telling, members, pending)
        revoking = [one for one in heard if isinstance(one.body, TabletRevoked)]
        sterner = fold_members(job, [*told, *revoking])
        still = set(map(_place, _heard(telling, sterner, pending)))
        more = [one for one in heard if _place(one) in still or sterner.find(one.stream) is None]
        settled = fold_members(job, [*told, *more])
        if settled.digest() == members.digest():
            break
        members = settled
    return members


def _place(statement: Statement) -> tuple[str, str]:
    return (statement.stream, statement.id)


def _heard(
    telling: Iterable[Pending], members: Members, pending: Collection[Pending]
) -> list[Statement]:
    """Return the statements that count by a list of tablets."""
    allowed = heads_allowed(members, pending)
    return [
        statement
        for one in telling
        if not _is_past_cut(one, members, allowed)
        for statement in one.statements
        if may_change_list(statement, members)
    ]


def refusal_reason(
    one: Pending, members: Members, allowed: dict[str, set[bytes]], source: EntrySource
) -> UnknownTabletError | RevokedTabletError | None:
    """Return why the list of tablets keeps a segment out, or None if it does not."""
    stream = one.name.stream
    tablet = members.find(stream)
    if tablet is None:
        return UnknownTabletError(name=one.name.text, tablet=code_of(stream))
    if not _is_past_cut(one, members, allowed):
        return None
    if one.head in source.hashes_at(stream, one.name.last):
        return None  # it was held before the news came
    return RevokedTabletError(name=one.name.text, tablet=tablet.code)


def heads_allowed(members: Members, pending: Collection[Pending]) -> dict[str, set[bytes]]:
    """Return, for each revoked stream, the heads of segments that lead up to what was held."""
    allowed: dict[str, set[bytes]] = {}
    for one in sorted(pending, key=lambda one: (one.name.stream, -one.name.last)):
        tablet = members.find(one.name.stream)
        if tablet is not None and tablet.is_revoked:
            heads = allowed.setdefault(one.name.stream, _digests(tablet.heads))
            if one.head in heads:
                heads.add(one.prev)
    return allowed


def _digests(heads: Iterable[Head]) -> set[bytes]:
    return {digest for _, digest in heads}


def _is_past_cut(one: Pending, members: Members, allowed: dict[str, set[bytes]]) -> bool:
    """Whether a segment of a tablet that was taken off leads to nothing that was held."""
    tablet = members.find(one.name.stream)
    if tablet is None or not tablet.is_revoked:
        return False
    return one.head not in allowed.get(one.name.stream, set())
