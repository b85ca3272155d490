"""Tablets of a job: who may write, worked out from entries alone, in any order."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from models.book.row import Row, entry_of
from models.entries.bodies.tablets import TabletAdded, TabletRevoked
from models.entries.tablet_code import code_of
from sync.trust.keys import DEMO
from sync.trust.succession import is_successor

STATEMENT_KINDS: Final = ("tablet_added", "tablet_revoked")

Head = tuple[int, bytes]


@dataclass(frozen=True, slots=True)
class Job:
    """Identity of a job: the stream that founded it, and the key of its folder in a store."""

    founder: str
    key: str

    @property
    def is_open(self) -> bool:
        """Whether anybody may write: its founder's key is known to all, so it keeps nobody out."""
        return self.founder == DEMO.stream


@dataclass(frozen=True, slots=True)
class Statement:
    """An entry that changes the list of tablets."""

    stream: str
    seq: int
    turn: tuple[int, str]  # its place in the order of entries
    body: TabletAdded | TabletRevoked

    @property
    def id(self) -> str:
        """Id of the statement's entry."""
        return self.turn[1]


@dataclass(frozen=True, slots=True)
class Tablet:
    """A tablet on the list of a job."""

    code: str
    name: str = ""
    is_revoked: bool = False
    heads: frozenset[Head] = frozenset()  # what leads up to these stays; of a revoked one
    why: str = ""
    revoked_by: tuple[str, ...] = ()  # ids of the entries that took it off and still stand


@dataclass(frozen=True, slots=True)
class Members:
    """The list of a job's tablets, by their codes."""

    job: Job
    tablets: Mapping[str, Tablet] = field(default_factory=dict)

    def find(self, stream: str) -> Tablet | None:
        """Return what the list says of a stream, None if it is not on it."""
        code = code_of(stream)
        if not code:
            return None
        found = self.tablets.get(code)
        return found if found or not self.job.is_open else Tablet(code)

    def may_write(self, stream: str) -> bool:
        """Whether a stream is on the list and was not taken off."""
        found = self.find(stream)
        return found is not None and not found.is_revoked

    def digest(self) -> str:
        """Return a short text that changes when the list does."""
        told = sorted(
            (code, one.is_revoked, tuple(sorted(one.heads))) for code, one in self.tablets.items()
        )
        return hashlib.sha256(repr(told).encode()).hexdigest()[:16]


def statement_of(row: Row) -> Statement | None:
    """Read a row of one of the two kinds; None for one of a later version, or that fits none."""
    body = entry_of(row).body
    if not isinstance(body, TabletAdded | TabletRevoked):
        return None
    return Statement(row.stream, row.seq, (row.lc, row.id), body)


def fold_members(job: Job, statements: Iterable[Statement]) -> Members:
    """Make the list from statements that count; their order makes no difference.

    Who was taken off stays off until somebody else, who knows of it, lifts just that. So a
    word written before, or at the same time, or by the tablet itself, does not help it.
    """
    told = sorted(statements, key=lambda one: one.turn)
    tablets = {code: Tablet(code) for code in [code_of(job.founder)] if code}
    lifted: set[tuple[str, str]] = set()
    for one in told:
        if isinstance(one.body, TabletAdded):
            code = one.body.code
            old = tablets.get(code, Tablet(code))
            tablets[code] = Tablet(code, one.body.name or old.name)
            if code_of(one.stream) != code:
                lifted |= {(code, id) for id in one.body.lifts}
    for one in told:
        if isinstance(one.body, TabletRevoked) and (one.body.code, one.id) not in lifted:
            _take_off(tablets, one.id, one.body)
    for one in told:
        if isinstance(one.body, TabletRevoked):
            _add_heads(tablets, one.body)
    return Members(job, tablets)


def _take_off(tablets: dict[str, Tablet], id: str, body: TabletRevoked) -> None:
    if body.only_heads:
        return
    old = tablets.get(body.code, Tablet(body.code))
    by = (*old.revoked_by, id)
    tablets[body.code] = replace(old, is_revoked=True, why=body.why or old.why, revoked_by=by)


def _add_heads(tablets: dict[str, Tablet], body: TabletRevoked) -> None:
    """Let all that anyone ever held when it was taken off stay, earlier times among them."""
    old = tablets.get(body.code)
    if old is not None and old.is_revoked:
        heads = old.heads | {_head(text) for text in body.heads}
        tablets[body.code] = replace(old, heads=heads)


def may_change_list(statement: Statement, members: Members) -> bool:
    """Whether a statement that is in no book yet may change the list.

    That its writer's entries are accepted up to it is for the caller to see; here is looked
    at who wrote it: one who is or was on the list, or the successor of one who is.
    """
    if members.find(statement.stream) is not None:
        return True
    body = statement.body
    return isinstance(body, TabletAdded) and is_successor(
        body, statement.stream, members.job.key, members.may_write
    )


def _head(text: str) -> Head:
    seq, _, digest = text.partition(":")
    return int(seq), bytes.fromhex(digest)
