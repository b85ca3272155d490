"""Entries of a job in the office's database, as an exchange reads and writes them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager
from typing import Any, Protocol

from sqlalchemy import Connection, Select, select, text, tuple_

from models.book.row import Row, from_columns, from_raw
from models.book.views import Dialect
from sync.office.bulk_insert import has_nul, insert_rows
from sync.office.tables import entry

_CHUNK = 2000
_COLUMNS = [column for column in entry.columns if column.name != "job_no"]
_LAST_ID = "\U0010ffff"
_RARE = ("job", "photo", "tablet_added", "tablet_revoked")

_REGISTER = text(
    "INSERT INTO office_job (key, founder, entries) VALUES (:key, :founder, 0) "
    "ON CONFLICT (key) DO NOTHING"
)
_FOUNDED = text("UPDATE office_job SET founder = :founder WHERE key = :key AND founder = ''")
_COUNT = text("UPDATE office_job SET entries = entries + :taken WHERE no = :no")


class OpenDatabase(Protocol):
    """Protocol of the database that a job's entries lie in."""

    @property
    def dialect(self) -> Dialect:
        """Kind of database, SQLite or PostgreSQL."""

    def reading(self) -> AbstractContextManager[Connection]:
        """Transaction in which all reads fit together."""

    def writing(self) -> AbstractContextManager[Connection]:
        """Transaction whose writes hold when the block ends, or not at all."""

    def lock(self, connection: Connection, no: int) -> None:
        """Let one at a time write to a job."""

    def number_of(self, key: str) -> int | None:
        """Return the number of a job, None if it is not here."""

    def find_number(self, connection: Connection, key: str) -> int | None:
        """Return the number of a job as an open transaction sees it."""


class JobSource:
    """Entries of one job in the office, as ``sync.exchange.entry_source.EntrySource`` has them.

    The job is noted with its first rows, so that a folder of a store that holds nothing
    that stands leaves no trace.
    """

    def __init__(self, office: OpenDatabase, key: str, founder: str = "") -> None:
        self.office = office
        self.key = key
        self.founder = founder
        self.no = office.number_of(key)
        self.new_rows = 0

    def import_rows(self, rows: Sequence[Row]) -> int:
        """Keep rows in one transaction, each once; return how many were new.

        Raises
        ------
        models.book.errors.EntryClashError
            If an id is here with other bytes or another hash; nothing is then taken in.
        OfficeFailedError
            If the database gave up; the rows are in or not, and to try again does no harm.
        """
        if not rows:
            return 0
        with self.office.writing() as connection:
            no = self._number(connection)
            self.office.lock(connection, no)
            taken = insert_rows(connection, self.office.dialect, no, rows)
            if taken:
                connection.execute(_COUNT, {"taken": taken, "no": no})
        self.no = no
        self.new_rows += taken
        return taken

    def note_founder(self, founder: str) -> None:
        """Note who founded the job, once that is known; a job without rows is not noted."""
        if founder and self.no is not None:
            with self.office.writing() as connection:
                connection.execute(_FOUNDED, {"key": self.key, "founder": founder})

    def heads(self) -> dict[str, tuple[int, bytes]]:
        """Return the last number and hash of each stream; of a fork, the branch written last."""
        return {stream: self._head(stream) for stream in self.streams()}

    def streams(self) -> list[str]:
        """Return every stream that wrote to the job, by jumps over the index."""
        found: list[str] = []
        last = ""
        while True:
            ask = self._select(entry.c.stream).where(entry.c.stream > last)
            step = self._all(ask.order_by(entry.c.stream).limit(1))
            if not step:
                return found
            last = step[0][0]
            found.append(last)

    def _head(self, stream: str) -> tuple[int, bytes]:
        ask = self._select(entry.c.seq, entry.c.hash).where(entry.c.stream == stream)
        newest = (entry.c.seq.desc(), entry.c.lc.desc(), entry.c.id.desc())
        seq, digest = self._all(ask.order_by(*newest).limit(1))[0]
        return seq, bytes(digest)

    def hashes_at(self, stream: str, seq: int) -> set[bytes]:
        """Return the hashes of the rows with a number of a stream; more than one is a fork."""
        ask = self._select(entry.c.hash).where(entry.c.stream == stream, entry.c.seq == seq)
        return {bytes(digest) for (digest,) in self._all(ask)}

    def of_kinds(self, kinds: Sequence[str]) -> list[Row]:
        """Return every row of some rare kinds, in the order of entries."""
        ask = self._select(*_COLUMNS).where(entry.c.kind.in_(kinds))
        if set(kinds) <= set(_RARE):  # said again, so that the small index is used
            ask = ask.where(text(f"kind IN ({', '.join(repr(kind) for kind in _RARE)})"))
        return [_row(values) for values in self._all(ask.order_by(entry.c.lc, entry.c.id))]

    def of_stream(self, stream: str, after_seq: int = 0) -> Iterator[Row]:
        """Every row of one stream in the order of its numbers, those after ``after_seq``."""
        place = (after_seq, _LAST_ID)
        while True:
            here = tuple_(entry.c.seq, entry.c.id) > place
            ask = self._select(*_COLUMNS).where(entry.c.stream == stream, here)
            chunk = self._all(ask.order_by(entry.c.seq, entry.c.id).limit(_CHUNK))
            if not chunk:
                return
            yield from map(_row, chunk)
            place = (chunk[-1][2], chunk[-1][0])

    def rows(self) -> Iterator[Row]:
        """Every row in the order of entries, (lc, id), a part at a time."""
        place = (0, "")
        while True:
            ask = self._select(*_COLUMNS).where(tuple_(entry.c.lc, entry.c.id) > place)
            chunk = self._all(ask.order_by(entry.c.lc, entry.c.id).limit(_CHUNK))
            if not chunk:
                return
            yield from map(_row, chunk)
            place = (chunk[-1][3], chunk[-1][0])

    def _select(self, *columns: Any) -> Select[Any]:
        return select(*columns).where(entry.c.job_no == (self.no or 0))

    def _all(self, ask: Select[Any]) -> Sequence[Any]:
        with self.office.reading() as connection:
            return connection.execute(ask).fetchall()

    def _number(self, connection: Connection) -> int:
        if self.no is not None:
            return self.no
        connection.execute(_REGISTER, {"key": self.key, "founder": self.founder})
        found = self.office.find_number(connection, self.key)
        assert found is not None
        return found


def _row(values: Sequence[Any]) -> Row:
    """Read a row back exactly: columns that could not hold what raw says are read from raw."""
    raw, digest = bytes(values[14]), bytes(values[15])
    if has_nul(raw):
        return from_raw(raw, digest)
    return from_columns((*values[:14], raw, digest))
