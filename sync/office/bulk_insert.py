"""Rows into the database, many at a time, each once: by the fastest way each kind has."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator, Sequence
from typing import Any

from sqlalchemy import Connection

from models.book.errors import EntryClashError
from models.book.reading import COLUMNS
from models.book.row import Row, to_columns
from models.book.views import Dialect

_INSERT = f"INSERT INTO entry (job_no, {COLUMNS}) VALUES (?, {', '.join('?' * 16)})"

# Created once for each connection and emptied by every commit.
_INCOMING = (
    "CREATE TEMP TABLE IF NOT EXISTS incoming (LIKE entry INCLUDING DEFAULTS) ON COMMIT DELETE ROWS"
)
_COPY = "COPY {0} (job_no, " + COLUMNS + ") FROM STDIN (FORMAT BINARY)"
_ANY_HERE = "SELECT 1 FROM entry WHERE job_no = %s AND id = ANY(%s) LIMIT 1"
_TYPES = (
    *("int4", "text", "text", "int8", "int8", "text", "int8", "int8", "int4"),
    *("text", "text", "text", "text", "text", "text", "bytea", "bytea"),
)
# In the order of the primary key: its pages are met one after the other.
_TAKE = (
    f"INSERT INTO entry (job_no, {COLUMNS}) SELECT job_no, {COLUMNS} FROM incoming "
    "ORDER BY job_no, id ON CONFLICT (job_no, id) DO NOTHING"
)
_CLASH = (
    "SELECT i.id FROM incoming AS i JOIN entry AS e ON e.job_no = i.job_no AND e.id = i.id "
    "WHERE e.raw <> i.raw OR e.hash <> i.hash LIMIT 1"
)

_ZERO_IN_RAW = b"\\u0000"  # the only form in which the character 0 stands in canonical JSON
_SHOWN_ZERO = "\ufffd"


def insert_rows(connection: Connection, dialect: Dialect, job_no: int, rows: Sequence[Row]) -> int:
    """Insert rows of one job in the open transaction; return how many were new.

    Raises
    ------
    models.book.errors.EntryClashError
        If an id is there with other bytes; the caller rolls back.
    """
    if dialect is Dialect.SQLITE:
        return _insert(connection, job_no, rows)
    return _copy(connection, job_no, rows)


def has_nul(raw: bytes) -> bool:
    """Whether the bytes of an entry may hold the character 0, which PostgreSQL's texts can't."""
    return _ZERO_IN_RAW in raw


def _insert(connection: Connection, job_no: int, rows: Sequence[Row]) -> int:
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    before = driver.total_changes  # a row that is there already changes nothing
    try:
        driver.executemany(_INSERT, ((job_no, *to_columns(row)) for row in rows))
    except sqlite3.IntegrityError as fault:
        raise EntryClashError(id=_first_clash(driver, job_no, rows)) from fault
    return driver.total_changes - before


def _first_clash(driver: sqlite3.Connection, job_no: int, rows: Sequence[Row]) -> str:
    ask = "SELECT raw, hash FROM entry WHERE job_no = ? AND id = ?"
    for row in rows:
        found = driver.execute(ask, (job_no, row.id)).fetchone()
        if found is not None and found != (row.raw, row.hash):
            return row.id
    return rows[0].id


def _copy(connection: Connection, job_no: int, rows: Sequence[Row]) -> int:
    """Straight into the table, as rows nearly always are new; by way of another if some are not.

    What is here already nearly always begins or ends a portion; met in its middle, the
    copy is undone. Whoever writes to the job waits for its lock, so none comes in between.
    """
    from psycopg import errors  # there only where PostgreSQL is

    driver: Any = connection.connection.driver_connection
    with driver.cursor() as cursor:
        ends = [row.id.replace("\0", _SHOWN_ZERO) for row in (rows[0], rows[-1])]
        cursor.execute(_ANY_HERE, (job_no, ends))
        if cursor.fetchone() is None:
            with contextlib.suppress(errors.UniqueViolation), driver.transaction():
                _send(cursor, "entry", job_no, rows)
                return len(rows)
        return _copy_the_rest(cursor, job_no, rows)


def _copy_the_rest(cursor: Any, job_no: int, rows: Sequence[Row]) -> int:
    cursor.execute(_INCOMING)
    _send(cursor, "incoming", job_no, rows)
    cursor.execute(_TAKE)
    taken = int(cursor.rowcount)
    if taken < len(rows):
        cursor.execute(_CLASH)
        clash = cursor.fetchone()
        if clash is not None:
            raise EntryClashError(id=clash[0])
    return taken


def _send(cursor: Any, table: str, job_no: int, rows: Sequence[Row]) -> None:
    with cursor.copy(_COPY.format(table)) as copy:
        copy.set_types(_TYPES)
        for values in _plain(job_no, rows):
            copy.write_row(values)


def _plain(job_no: int, rows: Sequence[Row]) -> Iterator[tuple[Any, ...]]:
    """Columns as PostgreSQL takes them; what they can't hold stands in raw all the same."""
    for row in rows:
        columns = (job_no, *to_columns(row))
        yield tuple(map(_without_zero, columns)) if has_nul(row.raw) else columns


def _without_zero(value: Any) -> Any:
    if not isinstance(value, str):
        return value
    return value.replace("\0", _SHOWN_ZERO).replace("\\u0000", "\\ufffd")
