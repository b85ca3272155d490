"""A sync that failed: what can be read is not called inked before it is known to last."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

import pytest

from models.book import commit
from models.book.errors import CommitUncertainError
from models.book.file import engine
from models.book.file.fsync_again import checkpoint_durably
from models.book.row import Draft
from models.book.store import Book
from tests.models.book.failing_driver import Faults

Make = Callable[..., Draft]


def fail(_driver: engine.Driver, _path: Path) -> NoReturn:
    """Fail as a disk does whose every sync fails."""
    raise sqlite3.OperationalError("disk I/O error")


def test_row_that_is_there_already_is_not_taken_for_a_synced_one(
    faults: Faults, book: Book, draft: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Trying again finds the row and commits nothing, so nothing was synced: it is unknown."""
    one = draft()
    monkeypatch.setattr(commit, "checkpoint_durably", fail)
    faults.plan("COMMIT", 1, is_carried_out=True)

    for _ in range(3):
        with pytest.raises(CommitUncertainError, match="may or may not"):
            book.commit_all([one])
    assert one.id in book.find([one.id])
    monkeypatch.setattr(commit, "checkpoint_durably", checkpoint_durably)

    assert book.commit_all([one])[0].seq == 1
    assert book.count() == 1


def test_doubt_outlasts_a_fault_of_another_kind(
    faults: Faults, book: Book, draft: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A row that may be written since the first try is not said to be certainly absent later."""
    one = draft()
    faults.plan("COMMIT", 99, is_carried_out=True)
    monkeypatch.setattr(commit, "checkpoint_durably", fail)
    with pytest.raises(CommitUncertainError):
        book.commit_all([one])
    monkeypatch.setattr(commit, "checkpoint_durably", checkpoint_durably)
    faults.plan("BEGIN", 99)

    with pytest.raises(CommitUncertainError):
        book.commit_all([one])


def test_row_found_beside_others_waits_for_the_sync_too(
    faults: Faults, book: Book, draft: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another entry in between moves the stream on; the first is found, not yet vouched for."""
    one = draft()
    monkeypatch.setattr(commit, "checkpoint_durably", fail)
    faults.plan("COMMIT", 1, is_carried_out=True)
    for drafts in ([one], [draft()], [one]):
        with pytest.raises(CommitUncertainError):
            book.commit_all(drafts)
    monkeypatch.setattr(commit, "checkpoint_durably", checkpoint_durably)

    assert book.commit_all([one])[0] == next(iter(book.rows()))
    assert book.verify().is_sound


def test_everything_is_in_the_file_once_it_is_made_lasting(book: Book, draft: Make) -> None:
    """The journal is emptied into the file, so that nothing hangs on pages that may be lost."""
    book.commit_all([draft()])
    journal = engine.wal_path(book.path)
    assert journal.stat().st_size > 0

    connection = sqlite3.connect(book.path)
    checkpoint_durably(connection, book.path)
    connection.close()

    assert journal.stat().st_size == 0
    assert book.count() == 1
