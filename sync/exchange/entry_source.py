"""Protocol of whatever holds a job's entries for an exchange: a book, or the office's database."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Protocol

from models.book.row import Row, chain_hash
from sync.trust.members import STATEMENT_KINDS, Job, Members, Statement, fold_members, statement_of


class EntrySource(Protocol):
    """The entries of one job. ``models.book.store.Book`` is one."""

    def import_rows(self, rows: Sequence[Row]) -> int:
        """Keep rows in one transaction, each once; return how many were new.

        Raises
        ------
        models.book.errors.EntryClashError
            If an id is here with other bytes or another hash; nothing is then taken in.
        """

    def heads(self) -> dict[str, tuple[int, bytes]]:
        """Return the last number and hash of each stream."""

    def hashes_at(self, stream: str, seq: int) -> set[bytes]:
        """Return the hashes of the rows with a number of a stream; more than one is a fork."""

    def of_kinds(self, kinds: Sequence[str]) -> list[Row]:
        """Return every row of some rare kinds, in the order of entries."""

    def of_stream(self, stream: str, after_seq: int = 0) -> Iterator[Row]:
        """Every row of one stream in the order of its numbers, those after ``after_seq``."""


def statements_in(source: EntrySource) -> list[Statement]:
    """Return what entries state about the list of tablets; every statement counts."""
    found = [statement_of(row) for row in source.of_kinds(STATEMENT_KINDS)]
    return [one for one in found if one is not None]


def members_of(source: EntrySource, job: Job) -> Members:
    """Return the list of tablets as its entries make it."""
    return fold_members(job, statements_in(source))


def stream_tips(source: EntrySource, stream: str) -> set[tuple[int, bytes]]:
    """Return the last entry of a stream that is held; of a fork, that of every branch."""
    leaves: dict[bytes, int] = {}
    before: set[bytes] = set()
    here: set[bytes] = set()
    number = 0
    for row in source.of_stream(stream):
        if row.seq != number:
            before, here, number = (here if row.seq == number + 1 else set()), set(), row.seq
        for parent in before:
            if chain_hash(parent, row.raw) == row.hash:
                leaves.pop(parent, None)
        leaves[row.hash] = row.seq
        here.add(row.hash)
    return {(seq, digest) for digest, seq in leaves.items()}


def heads_beyond_revocation(
    source: EntrySource, members: Members
) -> dict[str, frozenset[tuple[int, bytes]]]:
    """Return, by code, what is held of revoked tablets beyond the heads that the list names.

    A member that is not revoked writes these into a ``tablet_revoked`` with ``only_heads``,
    so that the others take in what was held here in good faith. See FORMAT.md part 4.
    """
    found: dict[str, frozenset[tuple[int, bytes]]] = {}
    for stream in source.heads():
        tablet = members.find(stream)
        if tablet is not None and tablet.is_revoked:
            beyond = stream_tips(source, stream) - tablet.heads
            if beyond:
                found[tablet.code] = frozenset(beyond)
    return found
