"""Backup of a book: copied by SQLite, then opened and checked."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError

from models.book.errors import CopyFailedError
from models.book.file.engine import Access, make_engine
from models.book.opening import publish
from models.book.reading import count_rows, get_driver, read_heads


def back_up(connection: Connection, path: Path, target: Path) -> None:
    """Copy the book behind ``connection``; the copy gets its name only when it has held.

    Raises
    ------
    CopyFailedError
        If it could not be made; nothing is left behind.
    """
    if target.exists():
        raise CopyFailedError(path=path, target=target, why="there is a file of that name")
    part = target.with_name(target.name + ".part")
    try:
        part.unlink(missing_ok=True)
        _copy(connection, part)
        fault = _compare(connection, part)
        if fault is not None:
            raise CopyFailedError(path=path, target=target, why=fault)
        publish(part, target)
    except (sqlite3.Error, DBAPIError, OSError) as fault:
        raise CopyFailedError(path=path, target=target, why=str(fault)) from fault
    finally:
        part.unlink(missing_ok=True)


def _copy(connection: Connection, part: Path) -> None:
    # SQLite's own copying: a plain copy of a file in use is damaged more often than not.
    with closing(sqlite3.connect(part)) as copy:
        get_driver(connection).backup(copy)


def _compare(connection: Connection, part: Path) -> str | None:
    engine = make_engine(part, Access.SNAPSHOT)
    with engine.connect() as copy:
        lines = copy.exec_driver_sql("PRAGMA integrity_check").fetchall()
        if [line[0] for line in lines] != ["ok"]:
            return f"the copy is damaged ({lines[0][0]})"
        if read_heads(copy) != read_heads(connection) or count_rows(copy) != count_rows(connection):
            return "the copy does not hold all entries"
    return None
