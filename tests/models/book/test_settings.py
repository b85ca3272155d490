"""Every connection has proved that a commit lasts."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from models.book.errors import SettingsRefusedError
from models.book.file import engine as engine_module
from models.book.file.engine import Access, make_engine
from models.book.store import Book


def refuse(setting: str, answer: object) -> type[sqlite3.Connection]:
    """Make a connection on which one setting never takes."""

    class Stubborn(sqlite3.Connection):
        def execute(self, statement: str, *values: Any) -> sqlite3.Cursor:
            if statement.startswith(f"PRAGMA {setting}"):
                return super().execute("SELECT ?", (answer,))
            return super().execute(statement, *values)

    return Stubborn


@pytest.mark.parametrize("access", [Access.WRITE, Access.READ])
def test_every_connection_has_the_settings(book: Book, path: Path, access: Access) -> None:
    """Each new connection to the file, not only the first, is durable and checked."""
    engine = make_engine(path, access)
    for _ in range(2):
        with engine.connect() as connection:
            found = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
            }
            assert found == {
                "journal_mode": "wal",
                "synchronous": 2,
                "foreign_keys": 1,
                "busy_timeout": 5000,
            }
            assert connection.exec_driver_sql("PRAGMA wal_autocheckpoint").scalar() == 200


@pytest.mark.parametrize(
    ("setting", "answer"), [("journal_mode", "delete"), ("synchronous", 1), ("foreign_keys", 0)]
)
def test_a_setting_that_does_not_take_stops_the_opening(
    open_book: Callable[..., Book],
    monkeypatch: pytest.MonkeyPatch,
    setting: str,
    answer: object,
) -> None:
    """A file system that cannot keep the journal, or a library that will not sync, is refused."""
    open_book().close()
    monkeypatch.setattr(engine_module, "Driver", refuse(setting, answer))

    with pytest.raises(SettingsRefusedError) as caught:
        open_book()

    assert caught.value.context["setting"] == setting
    assert caught.value.context["found"] == answer
    monkeypatch.undo()
    assert open_book().read_only_reason is None  # the lock was given back


def test_the_object_mapper_is_never_loaded() -> None:
    """The book works on SQLAlchemy's Core alone, to start fast."""
    code = "import sys, models.book.rescue; print('sqlalchemy.orm' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout == "False\n"
