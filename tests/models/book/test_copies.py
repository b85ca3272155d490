"""Backups: whole, checked, made while the book is in use."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from models.book import copies
from models.book.errors import CopyFailedError
from models.book.row import Draft
from models.book.store import Book

Make = Callable[..., Draft]


def test_backup_holds_all_that_was_written(book: Book, draft: Make, tmp_path: Path) -> None:
    """The copy is a book of its own with the same entries and the same chain."""
    written = book.commit_all([draft() for _ in range(30)])

    book.backup(tmp_path / "copy.book")
    book.commit_all([draft()])

    with Book.open(tmp_path / "copy.book", stream="dd" * 16, reserve_bytes=10) as copy:
        assert list(copy.rows()) == written
        assert copy.verify().is_sound
        assert copy.commit_all([draft()])[0].seq == 1


def test_backups_during_writing_are_all_good(book: Book, draft: Make, tmp_path: Path) -> None:
    """While another thread writes entry after entry, each of twelve copies is whole."""
    is_done = threading.Event()

    def write() -> None:
        while not is_done.is_set():
            book.commit_all([draft()])

    writer = threading.Thread(target=write)
    writer.start()
    for number in range(12):
        book.backup(tmp_path / f"copy{number}.book")
    is_done.set()
    writer.join()

    for number in range(12):
        with Book.open(tmp_path / f"copy{number}.book", read_only=True) as copy:
            assert copy.verify().is_sound
    assert book.verify().is_sound


def test_reader_can_back_up(open_book: Callable[..., Book], draft: Make, tmp_path: Path) -> None:
    """A book that is open to be read can be copied."""
    open_book().commit_all([draft()])

    open_book(read_only=True).backup(tmp_path / "copy.book")

    with Book.open(tmp_path / "copy.book") as copy:
        assert copy.count() == 1


def test_backup_replaces_nothing(book: Book, tmp_path: Path) -> None:
    """A name that is taken is refused, and the file there stays."""
    taken = tmp_path / "copy.book"
    taken.write_text("mine")

    with pytest.raises(CopyFailedError, match="of that name"):
        book.backup(taken)
    with pytest.raises(CopyFailedError):
        book.backup(tmp_path / "no folder" / "copy.book")

    assert taken.read_text() == "mine"


def test_copy_that_does_not_hold_gets_no_name(
    book: Book, draft: Make, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """If the copy lacks an entry when it is checked, nothing is left of it."""
    book.commit_all([draft()])
    book.backup(tmp_path / "older.book")
    book.commit_all([draft()])
    older = (tmp_path / "older.book").read_bytes()
    monkeypatch.setattr(copies, "_copy", lambda _connection, part: part.write_bytes(older))

    with pytest.raises(CopyFailedError, match="all entries"):
        book.backup(tmp_path / "copy.book")

    assert not list(tmp_path.glob("copy.book*"))
