"""Verification of a book: every row against its bytes and its hash chain."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from sqlalchemy import Connection

from models.book.row import FIELDS, GENESIS, Row, chain_hash, from_raw

GUARDS = frozenset(("entry_no_update", "entry_no_delete", "entry_once"))


@dataclass(frozen=True, slots=True)
class Fault:
    """A row that is not what was written."""

    id: str
    stream: str
    seq: int
    what: str


@dataclass(frozen=True, slots=True)
class Fork:
    """A number of a stream that was given twice, as after a restored backup; all rows stay."""

    stream: str
    seq: int
    ids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Gap:
    """Numbers of a stream whose entries are not in the book."""

    stream: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class BookReport:
    """Result of a check of the whole book."""

    count: int
    heads: dict[str, tuple[int, bytes]]
    faults: tuple[Fault, ...] = ()
    forks: tuple[Fork, ...] = ()
    gaps: tuple[Gap, ...] = ()
    unproven: tuple[str, ...] = ()  # ids right after a gap: nothing is left to prove them by
    structure: tuple[str, ...] = ()

    @property
    def is_sound(self) -> bool:
        """Whether every entry of every stream is there and as it was written."""
        return not (self.faults or self.gaps or self.structure)


def verify_rows(rows: Iterable[Row], structure: tuple[str, ...] = ()) -> BookReport:
    """Check rows that come stream by stream, in the order of their numbers."""
    walk = _Walk()
    for (stream, seq), group in groupby(rows, key=lambda row: (row.stream, row.seq)):
        walk.step(stream, seq, list(group))
    return BookReport(
        walk.count,
        walk.heads,
        tuple(walk.faults),
        tuple(walk.forks),
        tuple(walk.gaps),
        tuple(walk.unproven),
        structure,
    )


def structure_faults(connection: Connection) -> tuple[str, ...]:
    """Return what is wrong with the file apart from what its rows say."""
    lines = connection.exec_driver_sql("PRAGMA integrity_check").fetchall()
    faults = [str(line[0]) for line in lines if line[0] != "ok"]
    triggers = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
    found = {name for (name,) in connection.exec_driver_sql(triggers).fetchall()}
    faults += [f"the guard {name} is missing from the file" for name in sorted(GUARDS - found)]
    return tuple(faults)


class _Walk:
    """Where the check stands: the stream, its last number, and the hashes to go on from."""

    def __init__(self) -> None:
        self.count = 0
        self.heads: dict[str, tuple[int, bytes]] = {}
        self.faults: list[Fault] = []
        self.forks: list[Fork] = []
        self.gaps: list[Gap] = []
        self.unproven: list[str] = []
        self._stream: str | None = None
        self._seq = 0
        self._parents: set[bytes] = set()

    def step(self, stream: str, seq: int, rows: list[Row]) -> None:
        """Check all rows that carry one number of one stream."""
        self.count += len(rows)
        if not isinstance(seq, int):  # SQLite keeps whatever damage put there
            self.faults += [Fault(row.id, stream, 0, _mismatch(row) or "") for row in rows]
            return
        if stream != self._stream:
            self._stream, self._seq, self._parents = stream, 0, {GENESIS}
        is_after_gap = seq != self._seq + 1
        if is_after_gap:
            self.gaps.append(Gap(stream, self._seq + 1, seq - 1))
            self._parents = set()
        if len(rows) > 1:
            self.forks.append(Fork(stream, seq, tuple(row.id for row in rows)))
        for row in rows:
            self._check(row, is_after_gap)
        last = max(rows, key=lambda row: (row.lc if isinstance(row.lc, int) else 0, row.id))
        self.heads[stream] = (seq, last.hash)
        # A damaged hash is not to accuse the row behind it: what it should be counts too.
        self._parents = {row.hash for row in rows} | {
            chain_hash(parent, row.raw) for row in rows for parent in self._parents
        }
        self._seq = seq

    def _check(self, row: Row, is_after_gap: bool) -> None:
        what = _mismatch(row)
        if what is None and is_after_gap:
            self.unproven.append(row.id)
        elif what is None and all(
            chain_hash(parent, row.raw) != row.hash for parent in self._parents
        ):
            what = "its hash does not follow from the entry before it and its own bytes"
        if what is not None:
            self.faults.append(Fault(row.id, row.stream, row.seq, what))


def _mismatch(row: Row) -> str | None:
    """What the columns of a row say that its bytes do not."""
    try:
        told = from_raw(row.raw, row.hash)
    except (ValueError, TypeError):
        return "its bytes are not those of an entry"
    if told == row:
        return None
    wrong = [name for name in FIELDS if getattr(told, name) != getattr(row, name)]
    return f"its {', '.join(wrong)} differ from its bytes"
