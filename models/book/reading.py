"""Reads rows of a book in the order of entries, or stream by stream."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from sqlalchemy import Connection, func, select
from sqlalchemy.exc import OperationalError

from models.book.row import FIELDS, Row, from_columns
from models.book.tables import entry

COLUMNS = ", ".join((*FIELDS, "raw", "hash"))
_CHUNK = 2000
_IN_ORDER = f"SELECT {COLUMNS} FROM entry WHERE (lc, id) > (?, ?) ORDER BY lc, id LIMIT {_CHUNK}"
_BY_STREAM = (
    f"SELECT {COLUMNS} FROM entry WHERE (stream, seq, id) > (?, ?, ?) "
    f"ORDER BY stream, seq, id LIMIT {_CHUNK}"
)
_OF_STREAM = (
    f"SELECT {COLUMNS} FROM entry WHERE stream = ? AND (seq, id) > (?, ?) "
    f"ORDER BY seq, id LIMIT {_CHUNK}"
)
_OF_KINDS = (
    f"SELECT {COLUMNS} FROM entry WHERE job = ? AND kind IN (SELECT value FROM json_each(?)) "
    "ORDER BY lc, id"
)
_NEXT_JOB = "SELECT job FROM entry WHERE job > ? ORDER BY job LIMIT 1"
_HASHES_AT = "SELECT hash FROM entry WHERE stream = ? AND seq = ?"

_NEWEST_OF = f"SELECT {COLUMNS} FROM entry WHERE kind = ? ORDER BY lc DESC, id DESC LIMIT 1"


def newest_of(connection: Connection, kind: str) -> Row | None:
    """Return the row of a kind written last, struck or not."""
    found = _fetch(connection, _NEWEST_OF, (kind,))
    return from_columns(found[0]) if found else None


def chunk_in_order(connection: Connection, after_lc: int, after_id: str) -> list[Row]:
    """Return the next rows in the order of entries, (lc, id); an empty list at the end."""
    # Whole chunks, and no open cursor: one would keep the journal from being emptied.
    found = _fetch(connection, _IN_ORDER, (after_lc, after_id))
    return [from_columns(values) for values in found]


def walk_streams(connection: Connection) -> Iterator[Row]:
    """Every row, stream by stream in the order of its numbers."""
    place: tuple[str, int, str] = ("", 0, "")
    while found := _fetch(connection, _BY_STREAM, place):
        for values in found:
            yield from_columns(values)
        place = (found[-1][1], found[-1][2], found[-1][0])


def chunk_of_stream(connection: Connection, stream: str, seq: int, id: str) -> list[Row]:
    """Return the next rows of one stream after a place in it; an empty list at the end."""
    return [from_columns(values) for values in _fetch(connection, _OF_STREAM, (stream, seq, id))]


def rows_of_kinds(connection: Connection, kinds: Sequence[str]) -> list[Row]:
    """Return every row of these kinds, in the order of entries."""
    rows: list[Row] = []
    job = ""
    # Job by job, since the index begins with it; a book has one, or very few.
    while found := _fetch(connection, _NEXT_JOB, (job,)):
        job = found[0][0]
        told = _fetch(connection, _OF_KINDS, (job, json.dumps(list(kinds))))
        rows += [from_columns(values) for values in told]
    return sorted(rows, key=lambda row: (row.lc, row.id))


def hashes_at(connection: Connection, stream: str, seq: int) -> set[bytes]:
    """Return the hashes of the rows with a number of a stream: several where it forked."""
    return {bytes(digest) for (digest,) in _fetch(connection, _HASHES_AT, (stream, seq))}


def rows_with_ids(connection: Connection, ids: Iterable[str]) -> dict[str, Row]:
    """Return the rows of the book among these ids."""
    statement = f"SELECT {COLUMNS} FROM entry WHERE id IN (SELECT value FROM json_each(?))"
    found = _fetch(connection, statement, (json.dumps(list(ids)),))
    return {values[0]: from_columns(values) for values in found}


def decode_lossy(text: bytes) -> str:
    """Decode a text whose bytes may be damaged."""
    return text.decode(errors="replace")


def get_driver(connection: Connection) -> sqlite3.Connection:
    """Return SQLite's own connection behind the engine's."""
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    return driver


def _fetch(connection: Connection, statement: str, values: tuple[Any, ...]) -> Sequence[Any]:
    try:
        return connection.exec_driver_sql(statement, values).fetchall()
    except OperationalError as fault:
        if "Could not decode" not in str(fault.orig):
            raise
    # One damaged text is not to hide all the others; this decoder is slower, hence not at first.
    get_driver(connection).text_factory = decode_lossy
    return connection.exec_driver_sql(statement, values).fetchall()


def read_heads(connection: Connection) -> dict[str, tuple[int, bytes]]:
    """Return the last number and hash of every stream; of a fork, the branch written last."""
    heads: dict[str, tuple[int, bytes]] = {}
    for (stream,) in connection.execute(select(entry.c.stream).distinct()).all():
        last = (
            select(entry.c.seq, entry.c.hash)
            .where(entry.c.stream == stream)
            .order_by(entry.c.seq.desc(), entry.c.lc.desc(), entry.c.id.desc())
            .limit(1)
        )
        heads[stream] = tuple(connection.execute(last).one())
    return heads


def count_rows(connection: Connection) -> int:
    """Return the number of rows of the book."""
    return int(connection.execute(select(func.count()).select_from(entry)).scalar_one())
