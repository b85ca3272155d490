"""Connections to the office's database, with what makes a commit last set on each."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DBAPIError, SQLAlchemyError
from sqlalchemy.pool import NullPool

from models.book.views import Dialect
from sync.office.address import Address
from sync.office.errors import OfficeFailedError

_WAIT_S = 60  # for another that takes in at the same moment
_PATIENCE_S = 10  # for a server that does not answer

_ON_FILE = (
    ("foreign_keys", "ON"),
    ("synchronous", "FULL"),
    ("journal_mode", "WAL"),
    ("cache_size", "-65536"),  # 64 MiB: entries of many jobs come in out of order
)


def make_engine(address: Address) -> Engine:
    """Return an engine that begins every transaction itself and keeps no idle connection."""
    if address.dialect is Dialect.SQLITE:
        assert address.path is not None
        engine = create_engine(
            "sqlite://", creator=partial(_open_file, address.path), poolclass=NullPool
        )
        event.listen(engine, "begin", _begin)
        return engine
    arguments = {"connect_timeout": _PATIENCE_S, "client_encoding": "utf8"}
    engine = create_engine(address.url, poolclass=NullPool, connect_args=arguments)
    event.listen(engine, "connect", _settle)
    return engine


def _begin(connection: Connection) -> None:
    """Take the writer's lock at once where writing is meant, so that nobody writes in between."""
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _open_file(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode=rw",
        uri=True,
        timeout=_WAIT_S,
        isolation_level=None,  # we say BEGIN ourselves
        check_same_thread=False,
    )
    for name, value in _ON_FILE:
        connection.execute(f"PRAGMA {name} = {value}")
    return connection


def _settle(connection: Any, _record: Any) -> None:
    with connection.cursor() as cursor:
        cursor.execute("SET synchronous_commit = on")
        cursor.execute(f"SET lock_timeout = '{_WAIT_S}s'")
    connection.commit()


def driver_errors() -> tuple[type[Exception], ...]:
    """Return what is raised when a database fails, by the engine and by the drivers below it."""
    driver = sys.modules.get("psycopg")  # there only if PostgreSQL was named
    own: type[Exception] = driver.Error if driver is not None else sqlite3.Error
    return SQLAlchemyError, sqlite3.Error, own


@contextmanager
def translate_errors(address: Address) -> Iterator[None]:
    """Turn what the database answers when it fails into a sentence.

    Raises
    ------
    OfficeFailedError
        If it failed.
    """
    try:
        yield
    except driver_errors() as fault:
        raise OfficeFailedError(
            where=address.text_without_password, why=first_line(fault)
        ) from fault


def first_line(fault: Exception) -> str:
    """Return the first line of a database's error message."""
    said = str(fault.orig) if isinstance(fault, DBAPIError) else str(fault)
    return (said.strip().splitlines() or ["no reason was given"])[0]
