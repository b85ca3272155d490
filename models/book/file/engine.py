"""Opens a book's file with the settings that make a commit durable, and proves that they took."""

from __future__ import annotations

import sqlite3
from enum import Enum
from functools import partial
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.pool import NullPool

from models.book.errors import SettingsRefusedError

Driver = sqlite3.Connection  # one name for the connection class, so that a test can make it fail
BUSY_TIMEOUT_MS = 5000
WAL_HEADER_BYTES = 32


class Access(Enum):
    """How a file is opened, as file options; SQLite passes over those that are ours."""

    WRITE = "mode=rw"
    CREATE = "mode=rwc"
    MIGRATE = "mode=rw&journal=as-found"
    READ = "mode=ro"
    SNAPSHOT = "mode=ro&immutable=1"  # needs no file beside it: works on a full disk
    ALONE = "mode=rw&locking=alone"  # reads an open journal on a full disk


_SETTINGS = (
    ("foreign_keys", "ON", 1),
    ("synchronous", "FULL", 2),
    ("busy_timeout", str(BUSY_TIMEOUT_MS), BUSY_TIMEOUT_MS),
    # Small, so that the journal takes little room on a disk that is nearly full.
    ("wal_autocheckpoint", "200", 200),
)


def wal_path(path: Path) -> Path:
    """Return where SQLite keeps what is committed but not yet in the file itself."""
    return path.with_name(path.name + "-wal")


def has_open_journal(path: Path) -> bool:
    """Whether commits lie beside the file that are not in it yet."""
    try:
        return wal_path(path).stat().st_size > WAL_HEADER_BYTES
    except OSError:
        return False


def make_engine(path: Path, access: Access) -> Engine:
    """Return an engine for one file; every connection it gives has proved its settings.

    Nothing is pooled: the book holds its one connection itself, and a connection that
    is given back is closed, so that no file stays open behind a book that was closed.
    """
    engine = create_engine("sqlite://", creator=partial(_dial, path, access), poolclass=NullPool)
    event.listen(engine, "connect", partial(_settle, path, access))
    return engine


def switch_to_wal(connection: Driver, path: Path) -> None:
    """Set the journal mode, which is written into the file: call it after the version check.

    Raises
    ------
    SettingsRefusedError
        If the file system cannot keep a write-ahead log.
    """
    found = connection.execute("PRAGMA journal_mode = WAL").fetchone()[0]
    _require(path, "journal_mode", "wal", found)


def _dial(path: Path, access: Access) -> Driver:
    return sqlite3.connect(
        f"{path.absolute().as_uri()}?{access.value}",
        uri=True,
        timeout=BUSY_TIMEOUT_MS / 1000,
        # We say BEGIN ourselves: the module's own leaves schema changes outside of it.
        isolation_level=None,
        check_same_thread=False,  # the book has a lock of its own
        factory=Driver,
    )


def _settle(path: Path, access: Access, connection: Driver, _record: Any) -> None:
    if access is Access.ALONE:
        connection.execute("PRAGMA locking_mode = EXCLUSIVE")
    for name, value, wanted in _SETTINGS:
        connection.execute(f"PRAGMA {name} = {value}")
        _require(path, name, wanted, connection.execute(f"PRAGMA {name}").fetchone()[0])
    if access is Access.WRITE:
        switch_to_wal(connection, path)
    if access in (Access.READ, Access.SNAPSHOT, Access.ALONE):
        connection.execute("PRAGMA query_only = ON")


def _require(path: Path, setting: str, wanted: object, found: object) -> None:
    if found != wanted:
        raise SettingsRefusedError(path=path, setting=setting, wanted=wanted, found=found)
