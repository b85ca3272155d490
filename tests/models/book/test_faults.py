"""Storage that fails in mid-write: nothing acknowledged is lost, nothing is written twice."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from models.book.errors import BookDamagedError, CommitUncertainError, NotCommittedError
from models.book.row import Draft
from models.book.store import Book
from tests.models.book.failing_driver import Faults

Make = Callable[..., Draft]


@pytest.mark.parametrize("times", [1, 2, 3])
def test_commit_that_failed_after_it_was_done(
    faults: Faults, book: Book, draft: Make, times: int
) -> None:
    """The commit held although it said otherwise: one row, and the caller gets it."""
    first = book.commit_all([draft()])[0]
    faults.plan("COMMIT", times, is_carried_out=True)

    second = book.commit_all([draft(), draft()])
    faults.plan("COMMIT", 0)
    third = book.commit_all([draft()])[0]

    assert list(book.rows()) == [first, *second, third]
    assert book.verify().is_sound


@pytest.mark.parametrize("start", ["BEGIN", "INSERT", "COMMIT"])
@pytest.mark.parametrize("times", [1, 2])
def test_passing_fault_is_passed_over(
    faults: Faults, book: Book, draft: Make, start: str, times: int
) -> None:
    """A fault that goes away again costs nothing: the entry is tried with the same id."""
    book.commit_all([draft()])
    faults.plan(start, times)

    row = book.commit_all([draft()])[0]

    assert row.seq == 2
    assert list(book.rows(after_lc=1)) == [row]
    assert book.verify().is_sound


@pytest.mark.parametrize("start", ["BEGIN", "INSERT"])
def test_lasting_fault_before_the_commit_is_not_written(
    faults: Faults, book: Book, draft: Make, start: str
) -> None:
    """Where no commit was tried the answer is a plain no, and the book goes on later."""
    one = draft()
    faults.plan(start, 99)

    with pytest.raises(NotCommittedError, match=one.id):
        book.commit_all([one])
    faults.plan(start, 0)

    assert book.count() == 0
    assert book.commit_all([one])[0].seq == 1


@pytest.mark.parametrize("is_between", [True, False])
def test_lasting_fault_of_the_commit_is_unknown_until_tried_again(
    faults: Faults, book: Book, draft: Make, is_between: bool
) -> None:
    """The caller is told that it may be written; the next try settles it, once."""
    one = draft()
    faults.plan("COMMIT", 99)
    with pytest.raises(CommitUncertainError, match="may or may not"):
        book.commit_all([one])
    faults.plan("COMMIT", 0)
    if is_between:
        book.commit_all([draft()])

    row = book.commit_all([one])[0]

    assert [kept.id for kept in book.rows()].count(one.id) == 1
    assert row in list(book.rows())
    assert book.verify().is_sound


def test_commit_that_cannot_be_proved_durable_is_unknown(
    faults: Faults, book: Book, draft: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A row that is legible after a failed commit counts only once it is synced."""
    one = draft()
    monkeypatch.setattr("models.book.commit.Committer._are_lasting", lambda _pen, _rows: False)
    faults.plan("COMMIT", 99, is_carried_out=True)

    with pytest.raises(CommitUncertainError):
        book.commit_all([one])
    faults.plan("COMMIT", 0)
    monkeypatch.undo()

    assert book.commit_all([one])[0].seq == 1
    assert book.count() == 1


def test_book_held_by_another_program_is_not_waited_for_twice(
    faults: Faults, book: Book, draft: Make
) -> None:
    """When the wait for another program's write ran out, the answer comes at once."""
    faults.plan("BEGIN", 99, code=sqlite3.SQLITE_BUSY)

    with pytest.raises(NotCommittedError, match="other programs"):
        book.commit_all([draft()])

    assert faults.left == 98
    faults.plan("BEGIN", 0)
    assert book.commit_all([draft()])[0].seq == 1


def test_connection_that_cannot_be_opened_again(
    faults: Faults, book: Book, draft: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While the storage is gone altogether there is a sentence; when it is back, so are we."""
    one = draft()
    faults.plan("", 99)

    with pytest.raises(NotCommittedError):
        book.commit_all([one])
    faults.plan("", 0)

    assert book.commit_all([one])[0].seq == 1
    assert book.count() == 1


def test_file_found_broken_in_mid_write(
    faults: Faults, book: Book, draft: Make, path: Path
) -> None:
    """When SQLite finds the file malformed nothing is tried again and the remains are counted."""
    book.commit_all([draft(), draft()])
    faults.plan("INSERT", 1, code=sqlite3.SQLITE_CORRUPT)

    with pytest.raises(BookDamagedError) as caught:
        book.commit_all([draft()])

    assert caught.value.context["readable"] == 2
    assert caught.value.context["path"] == path


def test_taking_in_meets_a_fault(faults: Faults, book: Book, draft: Make) -> None:
    """Rows of another book are taken in whole after a passing fault."""
    book.commit_all([draft()])
    rows = list(book.rows())
    faults.plan("INSERT", 1)

    assert book.import_rows(rows) == 0
    assert book.count() == 1
