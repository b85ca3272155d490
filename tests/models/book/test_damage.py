"""Broken files: what can still be read is said, nothing is written to them, much is saved."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from models.book.errors import (
    BookDamagedError,
    BookError,
    BookExistsError,
    BookForbiddenError,
    BookNotCreatedError,
    NoSuchBookError,
    NotABookError,
    StorageError,
)
from models.book.rescue import rescue_book
from models.book.row import Draft, Row
from models.book.store import Book

Make = Callable[..., Draft]
ENTRIES = 120


@pytest.fixture
def written(book: Book, draft: Make) -> list[Row]:
    """Return the rows of a book of some pages that was closed again."""
    rows = book.commit_all([draft(reason="long" * (number % 400)) for number in range(ENTRIES)])
    book.close()
    for rest in (".lock", ".ballast"):
        book.path.with_name(book.path.name + rest).unlink()
    return rows


@contextmanager
def being_nobody() -> Iterator[None]:
    """Act as a user without rights, since nothing is forbidden to the superuser."""
    if os.name != "posix":
        pytest.skip("needs file permissions as POSIX has them")
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(user)


def folder_bytes(folder: Path) -> dict[str, bytes]:
    """Every file of a folder with its bytes."""
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}


@pytest.mark.parametrize("read_only", [True, False])
@pytest.mark.parametrize(
    ("content", "found"),
    [
        (b"", "an empty file"),
        (b"SQLite format 3\x00", "not a database"),
        (b"station,BS,IS,FS\n0+00,5.12,,\n" * 90, "not a database"),
        (bytes(20_000), "not a database"),
        (random.Random(7).randbytes(20_000), "not a database"),
    ],
    ids=["empty", "only a name", "a table", "zeros", "noise"],
)
def test_something_else_is_no_book(path: Path, content: bytes, found: str, read_only: bool) -> None:
    """The sentence says what the file is instead, and nothing appears beside it."""
    path.write_bytes(content)

    with pytest.raises(NotABookError) as caught:
        Book.open(path, stream="aa" * 16, read_only=read_only)

    assert caught.value.context["found"] == found
    assert folder_bytes(path.parent) == {path.name: content}


def test_database_of_another_program_is_no_book(path: Path) -> None:
    """A sound SQLite file that is not ours is refused untouched."""
    with closing(sqlite3.connect(path)) as file:
        file.execute("CREATE TABLE entry (id)")
    before = folder_bytes(path.parent)

    with pytest.raises(NotABookError, match="another program"):
        Book.open(path, stream="aa" * 16)

    assert folder_bytes(path.parent) == before


def test_missing_file_folder_and_path_through_a_file(tmp_path: Path) -> None:
    """What is not there, is a folder, or cannot be reached is told apart; nothing is made."""
    with pytest.raises(NoSuchBookError):
        Book.open(tmp_path / "gone.book", stream="aa" * 16)
    with pytest.raises(NotABookError, match="a folder"):
        Book.open(tmp_path, stream="aa" * 16)
    (tmp_path / "file").touch()
    with pytest.raises(StorageError):
        Book.open(tmp_path / "file" / "x.book", stream="aa" * 16)
    with pytest.raises(BookError):
        Book.create(tmp_path / "no such folder" / "x.book", stream="aa" * 16)
    assert [entry.name for entry in tmp_path.iterdir()] == ["file"]


def test_new_book_takes_no_others_place(path: Path, written: list[Row]) -> None:
    """Making a book where a file is changes nothing."""
    before = folder_bytes(path.parent)

    with pytest.raises(BookExistsError):
        Book.create(path, stream="aa" * 16)

    assert folder_bytes(path.parent) == before


def test_file_without_permission(tmp_path_factory: pytest.TempPathFactory, draft: Make) -> None:
    """Not to be read: refused in words; to be read but not written: open to read, and why."""
    folder = tmp_path_factory.mktemp("locked")
    path = folder / "green.book"
    with Book.create(path, stream="aa" * 16, reserve_bytes=10) as book:
        book.commit_all([draft()])
    for parent in (folder, *folder.parents[:3]):  # one more where workers share the run
        parent.chmod(0o755)
    path.chmod(0o444)
    folder.chmod(0o555)
    with being_nobody(), Book.open(path, stream="aa" * 16) as book:
        assert "permission" in str(book.read_only_reason)
        assert book.count() == 1
    path.chmod(0o000)
    with being_nobody(), pytest.raises(BookForbiddenError, match="permission to read"):
        Book.open(path, stream="aa" * 16)
    folder.chmod(0o755)


def test_new_book_says_what_is_wrong_with_its_folder(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    """A folder that takes nothing, or is not there: named, and no book is half made."""
    folder = tmp_path_factory.mktemp("locked")
    for parent in (folder, *folder.parents[:3]):
        parent.chmod(0o755)
    folder.chmod(0o555)
    with being_nobody(), pytest.raises(BookNotCreatedError, match="may not be written to"):
        Book.create(folder / "green.book", stream="aa" * 16)
    folder.chmod(0o755)
    with pytest.raises(BookNotCreatedError, match="its folder is not there"):
        Book.create(folder / "gone" / "green.book", stream="aa" * 16)

    assert list(folder.iterdir()) == []


@pytest.mark.parametrize("share", [0.02, 0.5, 0.97])
def test_file_cut_short(path: Path, written: list[Row], share: float, tmp_path: Path) -> None:
    """Some entries are counted as legible, all of those come over, the file stays as it is."""
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * share)])
    before = folder_bytes(path.parent)

    with pytest.raises(BookDamagedError, match="cut short") as caught:
        Book.open(path, stream="aa" * 16)
    assert folder_bytes(path.parent) == before

    told = rescue_book(path, tmp_path / "saved.book")
    with Book.open(tmp_path / "saved.book") as saved:
        kept = list(saved.rows())
    assert len(kept) == told.rescued == caught.value.context["readable"]
    assert set(kept) <= set(written)
    assert len(kept) >= ENTRIES * (share - 0.1)
    assert path.read_bytes() == before[path.name]


def wreck(data: bytes, page: int) -> bytes:
    """Overwrite one page of a file with noise."""
    return data[: page * 4096] + random.Random(page).randbytes(4096) + data[(page + 1) * 4096 :]


@pytest.mark.parametrize("page", range(2, 14))
def test_page_of_noise(path: Path, written: list[Row], page: int, tmp_path: Path) -> None:
    """One lost page costs the entries on it and no others; the gap is in the report."""
    path.write_bytes(wreck(path.read_bytes(), page))
    before = path.read_bytes()

    told = rescue_book(path, tmp_path / "saved.book")

    assert path.read_bytes() == before
    with Book.open(tmp_path / "saved.book") as saved:
        kept = list(saved.rows())
        report = saved.verify()
    assert set(kept) <= set(written)
    assert told.rescued >= ENTRIES - 25
    lost = sum(gap.last - gap.first + 1 for gap in told.missing)
    assert ENTRIES - len(kept) == lost + (written[-1].seq - max(row.seq for row in kept))
    assert report.faults == ()
    assert report.gaps == told.missing
    assert report.unproven == told.unproven


def test_first_page_of_noise_leaves_the_bytes_of_entries(
    path: Path, written: list[Row], tmp_path: Path
) -> None:
    """With the file's own index gone, entries are still found by what they look like."""
    path.write_bytes(wreck(path.read_bytes(), 0))

    with pytest.raises(NotABookError):
        Book.open(path)
    told = rescue_book(path, tmp_path / "saved.book")

    with Book.open(tmp_path / "saved.book") as saved:
        assert set(saved.rows()) <= set(written)
    assert told.rescued > ENTRIES // 4


def test_damaged_file_with_an_open_journal_is_not_written_to(
    book: Book, draft: Make, path: Path, tmp_path: Path
) -> None:
    """What a killed app left beside a broken file stays beside it, and is read as well."""
    crashed = tmp_path / "crashed"
    crashed.mkdir()
    book.commit_all([draft() for _ in range(60)])
    book.close()
    shutil.copyfile(path, crashed / path.name)
    with Book.open(path, stream="aa" * 16, reserve_bytes=10) as again:
        late = again.commit_all([draft()])[0]
        shutil.copyfile(f"{path}-wal", crashed / f"{path.name}-wal")
    (crashed / path.name).write_bytes(wreck((crashed / path.name).read_bytes(), 9))
    before = folder_bytes(crashed)

    with pytest.raises(BookDamagedError):
        Book.open(crashed / path.name, stream="aa" * 16)
    rescue_book(crashed / path.name, tmp_path / "saved.book")

    after = folder_bytes(crashed)
    assert {name: after[name] for name in before} == before
    with Book.open(tmp_path / "saved.book") as saved:
        assert late.id in saved.find([late.id])


def test_every_flipped_bit_that_changes_an_entry_is_found(
    path: Path, written: list[Row], tmp_path: Path
) -> None:
    """Of 200 single flipped bits none alters what is read without a check finding it."""
    whole, dice, changed = path.read_bytes(), random.Random(20_260_504), 0
    flipped = tmp_path / "flipped.book"
    for _ in range(200):
        data = bytearray(whole)
        data[dice.randrange(100, len(data))] ^= 1 << dice.randrange(8)
        flipped.write_bytes(data)
        try:
            with Book.open(flipped) as book:
                report = book.verify()
                is_found = not report.is_sound
                if list(book.rows()) != written:
                    changed += 1
                    assert is_found
        except BookError:
            continue
    assert changed > 20
