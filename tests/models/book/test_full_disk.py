"""A full disk, a real one: the book opens, the crew goes on, nothing is lost."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from models.book.errors import NotCommittedError
from models.book.file.disk_reserve import DiskReserve, reserve_path
from models.book.row import Draft, Row
from models.book.store import Book
from tests.small_disk import small_disk

Make = Callable[..., Draft]
STREAM = "5f" * 16
RESERVE_BYTES = 2_500_000


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 12 MB."""
    with small_disk(tmp_path / "disk", 12) as place:
        yield place


def fill(disk: Path) -> Path:
    """Use up the last byte of a disk."""
    filler = disk / "photos"
    with filler.open("wb", buffering=0) as file, suppress(OSError):
        while file.write(bytes(4096)):
            pass
    assert shutil.disk_usage(disk).free == 0
    return filler


def make_book(disk: Path) -> Book:
    """Make a book with a small disk reserve on the small disk."""
    return Book.create(disk / "green.book", stream=STREAM, reserve_bytes=RESERVE_BYTES)


def open_book(disk: Path, **options: bool) -> Book:
    """Open that book."""
    return Book.open(disk / "green.book", stream=STREAM, reserve_bytes=RESERVE_BYTES, **options)


def ink_for_ever(book: Book, draft: Make) -> Iterator[Row]:
    """Write entries for as long as it goes."""
    while True:
        yield book.commit_all([draft(reason="x" * 2000)])[0]


def test_disk_reserve_is_given_up_and_the_crew_goes_on(disk: Path, draft: Make) -> None:
    """When the disk fills up under an open book, a hundred more entries still go in."""
    with make_book(disk) as book:
        book.commit_all([draft()])
        assert not book.is_reserve_spent
        fill(disk)
        for _ in range(200):
            book.commit_all([draft(reason="x" * 500)])

        assert book.is_reserve_spent
        assert book.count() == 201
        assert book.verify().is_sound


def test_disk_reserve_comes_back_when_there_is_room(disk: Path, draft: Make) -> None:
    """Once room was made, the disk reserve is allocated again while entries are written."""
    with make_book(disk) as book:
        filler = fill(disk)
        for _ in range(100):
            book.commit_all([draft(reason="x" * 500)])
        assert book.is_reserve_spent
        filler.unlink()
        for _ in range(65):
            book.commit_all([draft()])

        assert not book.is_reserve_spent


def test_disk_full_to_the_end_is_said_and_loses_nothing(disk: Path, draft: Make) -> None:
    """With the disk reserve gone too, the entry is refused in words; every earlier one is there."""
    written: list[Row] = []
    with make_book(disk) as book:
        filler = fill(disk)
        with pytest.raises(NotCommittedError, match="room") as caught:
            written.extend(ink_for_ever(book, draft))
        assert len(written) > 100
        assert [row.id for row in book.rows()] == [row.id for row in written]
        assert book.verify().is_sound
        filler.unlink()
        assert book.commit_all([draft()])[0].seq == len(written) + 1
    assert "full" in str(caught.value)


def test_book_opens_to_write_on_a_full_disk(disk: Path, draft: Make) -> None:
    """A book that was closed cleanly opens again at no free byte, by releasing its disk reserve."""
    with make_book(disk) as book:
        book.commit_all([draft()])
    fill(disk)

    with open_book(disk) as book:
        assert book.read_only_reason is None
        assert book.is_reserve_spent
        assert book.commit_all([draft()])[0].seq == 2
        assert [row.seq for row in book.rows()] == [1, 2]


def test_book_opens_to_read_on_a_full_disk(disk: Path, draft: Make) -> None:
    """Reading needs no room at all and leaves the disk reserve where it is."""
    with make_book(disk) as book:
        book.commit_all([draft()])
    fill(disk)

    with open_book(disk, read_only=True) as reader:
        assert [row.seq for row in reader.rows()] == [1]
        assert not reader.is_reserve_spent


def test_killed_book_opens_to_read_on_a_full_disk(disk: Path, draft: Make) -> None:
    """Entries that a killed app left beside the file are read too, at no free byte."""
    with make_book(disk) as book:
        book.commit_all([draft()])
        kept = {name: (disk / name).read_bytes() for name in ("green.book", "green.book-wal")}
    for name, data in kept.items():
        (disk / name).write_bytes(data)
    fill(disk)

    with open_book(disk, read_only=True) as reader:
        assert [row.seq for row in reader.rows()] == [1]


def test_disk_reserve_is_real_and_leaves_room_to_live(tmp_path: Path) -> None:
    """Its blocks are on the disk, and a second loading is no work."""
    reserve = DiskReserve(tmp_path / "green.book")

    assert reserve.allocate()
    assert reserve.allocate()
    held = reserve_path(tmp_path / "green.book").stat()
    assert held.st_size == 8 * 1024 * 1024
    if os.name == "posix":
        assert held.st_blocks * 512 >= held.st_size
    assert reserve.release()
    assert not reserve.release()


def test_no_disk_reserve_is_taken_from_the_last_room(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is no room to spare, loading is put off and is no error."""
    usage = type("Usage", (), {"free": 10_000_000})
    monkeypatch.setattr("models.book.file.disk_reserve.shutil.disk_usage", lambda _folder: usage)

    assert not DiskReserve(tmp_path / "green.book").allocate()
    assert list(tmp_path.iterdir()) == []
