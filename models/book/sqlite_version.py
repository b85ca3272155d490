"""Version of the SQLite library that stores the books of this machine."""

from __future__ import annotations

import sqlite3


def sqlite_version() -> str:
    """Return the version of the SQLite library that Python was built with."""
    return sqlite3.sqlite_version
