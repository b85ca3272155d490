"""The file itself refuses to be changed, whoever opens it."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from models.book.row import Draft, Row, make_row, to_columns
from models.book.store import Book

MARKS = ", ".join("?" * 16)


@pytest.fixture
def row(book: Book, draft: Callable[..., Draft]) -> Row:
    """Return the one row of a book that was closed again."""
    book.commit_all([draft()])
    stored = next(book.rows())
    book.close()
    return stored


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entry SET author = 'x'",
        "UPDATE OR REPLACE entry SET id = 'x'",
        "UPDATE OR IGNORE entry SET raw = x'00'",
        "DELETE FROM entry",
        "DELETE FROM entry WHERE seq = 1",
    ],
)
def test_change_and_deletion_are_refused(path: Path, row: Row, statement: str) -> None:
    """Any other program that opens the file meets the same refusal."""
    with closing(sqlite3.connect(path)) as file:
        with pytest.raises(sqlite3.IntegrityError, match="never"):
            file.execute(statement)
        assert file.execute("SELECT raw FROM entry").fetchall() == [(row.raw,)]


@pytest.mark.parametrize("recursive", ["ON", "OFF"])
@pytest.mark.parametrize("form", ["INSERT", "INSERT OR REPLACE", "REPLACE", "INSERT OR IGNORE"])
def test_replacement_is_refused(
    path: Path, row: Row, form: str, recursive: str, draft: Callable[..., Draft]
) -> None:
    """A second row with the same id and other bytes is refused in every form of insert."""
    other = make_row(draft(id=row.id, author="x"), row.stream, 2, 2, row.hash)
    with closing(sqlite3.connect(path)) as file:
        file.execute(f"PRAGMA recursive_triggers = {recursive}")
        with pytest.raises(sqlite3.IntegrityError, match="never replaced"):
            file.execute(f"{form} INTO entry VALUES ({MARKS})", to_columns(other))
        assert file.execute("SELECT raw FROM entry").fetchall() == [(row.raw,)]


def test_upsert_is_refused(path: Path, row: Row, draft: Callable[..., Draft]) -> None:
    """Insert-or-update changes nothing, whether the new bytes differ or not."""
    other = make_row(draft(id=row.id, author="x"), row.stream, 2, 2, row.hash)
    upsert = f"INSERT INTO entry VALUES ({MARKS}) ON CONFLICT (id) DO UPDATE SET raw = x'00'"
    with closing(sqlite3.connect(path)) as file:
        with pytest.raises(sqlite3.IntegrityError, match="never replaced"):
            file.execute(upsert, to_columns(other))
        file.execute(upsert, to_columns(row))
        assert file.execute("SELECT raw FROM entry").fetchall() == [(row.raw,)]


@pytest.mark.parametrize("form", ["INSERT", "INSERT OR REPLACE"])
def test_identical_row_again_is_no_error_and_no_change(path: Path, row: Row, form: str) -> None:
    """A retry of the same row is taken for what it is."""
    with closing(sqlite3.connect(path)) as file:
        changed = file.execute(f"{form} INTO entry VALUES ({MARKS})", to_columns(row)).rowcount
        assert changed == 0
        assert file.execute("SELECT count(*) FROM entry").fetchone() == (1,)


def test_no_second_key_reaches_a_row(path: Path, row: Row) -> None:
    """There is no rowid by which a replacement could get round the guard on the id."""
    with (
        closing(sqlite3.connect(path)) as file,
        pytest.raises(sqlite3.OperationalError, match="rowid"),
    ):
        file.execute("SELECT rowid FROM entry")
