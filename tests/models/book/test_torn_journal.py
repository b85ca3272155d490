"""A journal whose last frames were torn by a power cut: the book opens with what was committed."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from models.book.errors import BookTooNewError
from models.book.file.engine import WAL_HEADER_BYTES, wal_path
from models.book.header import inspect
from models.book.row import Draft
from models.book.steps import APPLICATION_ID
from models.book.store import Book

Make = Callable[..., Draft]
STREAM = "5f" * 16
FRAME_BYTES = 24 + 4096


@pytest.fixture
def cut(path: Path, tmp_path: Path, draft: Make) -> Path:
    """Copy a book as a power cut leaves it: a journal beside it, its first page in that."""
    cut = tmp_path / "cut" / path.name
    cut.parent.mkdir()
    with Book.create(path, stream=STREAM, reserve_bytes=10) as book:
        while not frames_of_page_one(wal_path(path).read_bytes()):
            book.commit_all([draft(reason="x" * 500)])
        cut.write_bytes(path.read_bytes())
        wal_path(cut).write_bytes(wal_path(path).read_bytes())
    return cut


def frames_of_page_one(journal: bytes) -> list[int]:
    """Return where in a journal the frames of the first page begin."""
    starts = range(WAL_HEADER_BYTES, len(journal), FRAME_BYTES)
    return [at for at in starts if journal[at : at + 4] == b"\0\0\0\1"]


def spoil(path: Path, at: int, size: int) -> None:
    """Leave zeros where a part of the journal was not written in time."""
    data = bytearray(wal_path(path).read_bytes())
    data[at : at + size] = bytes(size)
    wal_path(path).write_bytes(data)


def opened_ids(path: Path) -> list[int]:
    """Return the numbers of the entries that an opened book holds, once it is found sound."""
    with Book.open(path, stream=STREAM, reserve_bytes=10) as book:
        assert book.read_only_reason is None
        assert book.verify().is_sound
        return [row.seq for row in book.rows()]


def test_first_page_lost_from_its_frame(cut: Path) -> None:
    """The head of a frame is there, its page is not: it is no page of another program."""
    spoil(cut, frames_of_page_one(wal_path(cut).read_bytes())[-1] + 24, 4096)

    assert inspect(cut).application_id == APPLICATION_ID
    numbers = opened_ids(cut)
    assert numbers == list(range(1, len(numbers) + 1))


def test_first_page_torn_inside_its_head(cut: Path) -> None:
    """Half of what a file says of itself is not believed."""
    spoil(cut, frames_of_page_one(wal_path(cut).read_bytes())[-1] + 24 + 50, 400)

    assert inspect(cut).application_id == APPLICATION_ID
    opened_ids(cut)


def test_journal_whose_own_head_is_torn(cut: Path) -> None:
    """A journal that cannot be read at all is not asked what the file is."""
    spoil(cut, 20, 8)

    assert inspect(cut).application_id == APPLICATION_ID
    assert opened_ids(cut) == []


def test_newer_schema_in_the_journal_counts_once_it_is_whole(cut: Path) -> None:
    """What a newer version committed there is believed; a torn commit of it is not."""
    connection = sqlite3.connect(cut)
    connection.execute("PRAGMA user_version = 99")
    journal = wal_path(cut).read_bytes()
    whole = cut.read_bytes()
    connection.close()
    cut.write_bytes(whole)
    wal_path(cut).write_bytes(journal)

    with pytest.raises(BookTooNewError):
        inspect(cut)
    spoil(cut, len(journal) - 1000, 500)
    assert inspect(cut).application_id == APPLICATION_ID
    assert opened_ids(cut)


@pytest.mark.parametrize("size", [0, 10, 24, 24 + 4095])
def test_journal_cut_short_in_a_frame(cut: Path, size: int) -> None:
    """A last frame of which only the beginning is there does not count."""
    journal = wal_path(cut).read_bytes()
    last = len(journal) - FRAME_BYTES
    wal_path(cut).write_bytes(journal[: last + size])

    numbers = opened_ids(cut)

    assert numbers == list(range(1, len(numbers) + 1))
