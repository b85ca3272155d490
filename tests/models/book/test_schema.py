"""Steps from one schema to the next, and files from other versions."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import Integer, LargeBinary, Text
from sqlalchemy.exc import OperationalError

from models.book import schema, steps
from models.book.errors import BookTooNewError
from models.book.file.engine import Access
from models.book.row import Draft
from models.book.steps import APPLICATION_ID, STEPS
from models.book.store import Book
from models.book.tables import metadata

FROZEN = Path(__file__).parents[3] / "fixtures" / "books"


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its bytes."""
    return {file.name: file.read_bytes() for file in folder.iterdir()}


@pytest.mark.parametrize("number", range(1, len(STEPS) + 1))
def test_book_of_every_schema_opens_and_reads(tmp_path: Path, number: int) -> None:
    """A real file of each schema that ever was is still a book, with all it held."""
    file = tmp_path / "old.book"
    shutil.copyfile(FROZEN / f"schema_{number}.book", file)

    with Book.open(file, stream="bb" * 16, reserve_bytes=10) as book:
        rows = list(book.rows())
        assert [(row.seq, row.kind) for row in rows] == [
            (1, "job"),
            (2, "pass"),
            (3, "probe"),
            (4, "probe"),
            (5, "a_kind_of_the_future"),
        ]
        assert rows[3].strikes == (rows[2].id,)
        assert book.verify().is_sound


def test_each_step_is_run_and_has_its_frozen_book() -> None:
    """Modules of steps, the list that is run and the frozen books are numbered alike."""
    numbers = list(range(1, len(STEPS) + 1))
    modules = Path(steps.__file__).parent.glob("step_*.py")

    assert sorted(int(path.stem.split("_")[1]) for path in modules) == numbers
    assert sorted(int(path.stem.split("_")[1]) for path in FROZEN.glob("schema_*.book")) == numbers


def test_new_file_is_marked_as_ours(book: Book, path: Path) -> None:
    """A book can be told from any other SQLite file, and knows its schema."""
    book.close()
    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA application_id").fetchone() == (APPLICATION_ID,)
        assert file.execute("PRAGMA user_version").fetchone() == (len(STEPS),)


def test_tables_and_steps_describe_the_same_columns(book: Book, path: Path) -> None:
    """What the code takes for a table is what the steps have made."""
    book.close()
    types = {Text: "TEXT", Integer: "INTEGER", LargeBinary: "BLOB"}
    with closing(sqlite3.connect(path)) as file:
        for table in metadata.tables.values():
            made = file.execute(f"PRAGMA table_info({table.name})").fetchall()
            told = [
                (
                    column.name,
                    next(word for kind, word in types.items() if isinstance(column.type, kind)),
                    int(not column.nullable),
                    int(column.primary_key),
                )
                for column in table.columns
            ]
            assert [(name, kind, full, key) for _, name, kind, full, _, key in made] == told


def test_failing_step_leaves_the_file_as_it_was(book: Book, path: Path) -> None:
    """If a later statement fails, what earlier ones of the same opening did is undone."""
    book.close()
    before = path.read_bytes()
    steps = (*STEPS, ("CREATE TABLE half (x)",), ("CREATE TABLE entry (x)",))

    with pytest.raises(OperationalError):
        schema.migrate(path, len(STEPS), Access.MIGRATE, steps)

    assert path.read_bytes() == before


def test_later_steps_run_once(book: Book, path: Path, draft: Callable[..., Draft]) -> None:
    """A file at an earlier schema gets the steps it lacks and keeps its entries."""
    book.commit_all([draft()])
    book.close()
    steps = (*STEPS, ("CREATE TABLE more (x)",))

    schema.migrate(path, len(STEPS), Access.MIGRATE, steps)

    with closing(sqlite3.connect(path)) as file:
        assert file.execute("PRAGMA user_version").fetchone() == (len(STEPS) + 1,)
        assert file.execute("SELECT count(*) FROM entry, (SELECT count(*) FROM more)").fetchone()


@pytest.mark.parametrize("journal", ["delete", "wal"])
@pytest.mark.parametrize("read_only", [True, False])
def test_newer_file_is_refused_untouched(
    book: Book, path: Path, journal: str, read_only: bool
) -> None:
    """Both numbers are in the sentence, and every file is byte for byte as it was."""
    book.close()
    with closing(sqlite3.connect(path)) as file:
        file.execute(f"PRAGMA journal_mode = {journal}")
        file.execute("PRAGMA user_version = 99")
    before = files_in(path.parent)

    with pytest.raises(BookTooNewError, match=f"99.* {len(STEPS)}\\."):
        Book.open(path, stream="aa" * 16, read_only=read_only)

    assert files_in(path.parent) == before


def test_newer_schema_is_seen_in_the_open_journal(book: Book, path: Path, tmp_path: Path) -> None:
    """A newer app that was killed left its number beside the file: that counts as well."""
    book.close()
    crashed = tmp_path / "crashed"
    crashed.mkdir()
    with closing(sqlite3.connect(path)) as file:
        file.execute("PRAGMA user_version = 99")
        for name in (path.name, f"{path.name}-wal"):
            shutil.copyfile(path.parent / name, crashed / name)
    before = files_in(crashed)

    with pytest.raises(BookTooNewError):
        Book.open(crashed / path.name, stream="aa" * 16)

    assert files_in(crashed) == before
