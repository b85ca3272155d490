"""Repeats fsync for rows whose first fsync failed or was never confirmed."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from models.book.file.engine import Driver, wal_path


def checkpoint_durably(driver: Driver, path: Path) -> None:
    """Move the whole journal into the file and empty it, with every fsync that this needs.

    What a program reads is not always on the disk. When a sync fails the system may take its
    pages for written, so that the next one succeeds and saves nothing: the journal's end is
    then not to be built on, and all that it holds is written once more, elsewhere.

    Raises
    ------
    sqlite3.Error
        If that failed: nothing is known yet.
    """
    # SQLite syncs the journal and the file, but not the emptying: an old journal could come back.
    if driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]:
        raise sqlite3.OperationalError("another program is reading the book")
    try:
        _sync(wal_path(path))
    except FileNotFoundError:
        pass  # there is none to come back
    except OSError as fault:
        raise sqlite3.OperationalError(fault.strerror) from fault


def is_journal_synced(path: Path) -> bool:
    """Fsync the journal that a killed program left; return whether that went well."""
    try:
        _sync(wal_path(path))
    except FileNotFoundError:
        return True
    except OSError:
        return False
    return True


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
