"""Header of a SQLite file, read without opening it as a database.

SQLite may write beside a file, or into it, as soon as it opens it. A file that is
going to be refused is to stay as it is, so its first bytes are read as bytes.
"""

from __future__ import annotations

import os
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from models.book.carving import make_damage_error
from models.book.errors import (
    BookForbiddenError,
    BookTooNewError,
    NoSuchBookError,
    NotABookError,
    StorageError,
)
from models.book.file.engine import WAL_HEADER_BYTES, has_open_journal, wal_path
from models.book.steps import APPLICATION_ID, STEPS
from models.plain_files import NotAPlainFileError, open_plain

_MAGIC = b"SQLite format 3\x00"
_FRAME_HEADER = 24
_SCHEMA, _APPLICATION = (60, 64), (68, 72)  # where the first page has them


@dataclass(frozen=True, slots=True)
class Header:
    """The facts on the first page of a file, as the last commit left them."""

    application_id: int
    schema: int
    page_size: int
    pages: int  # a journal beside it may hold more


def inspect(path: Path) -> Header:
    """Read a file's header and refuse what is not a book that this version can open.

    Raises
    ------
    NoSuchBookError, BookForbiddenError, NotABookError, BookTooNewError, BookDamagedError,
    StorageError
        The file is left as it was, byte for byte, with nothing new beside it.
    """
    header, size = _read(path)
    if header is None:
        raise NotABookError(path=path, found="an empty file" if size == 0 else "not a database")
    if header.application_id != APPLICATION_ID:
        raise NotABookError(path=path, found="a database of another program")
    if header.schema > len(STEPS):
        raise BookTooNewError(path=path, found=header.schema, newest=len(STEPS))
    if size < header.pages * header.page_size and not has_open_journal(path):
        what = f"it is cut short, {size} of {header.pages * header.page_size} bytes are there"
        raise make_damage_error(path, what)
    return header


def _read(path: Path) -> tuple[Header | None, int]:
    try:
        return _read_header(path), path.stat().st_size
    except FileNotFoundError as fault:
        raise NoSuchBookError(path=path) from fault
    except PermissionError as fault:
        raise BookForbiddenError(path=path, act="read") from fault
    except NotAPlainFileError as fault:
        raise NotABookError(path=path, found=fault.found) from fault
    except OSError as fault:
        raise StorageError(path=path, why=str(fault.strerror)) from fault


def _read_header(path: Path) -> Header | None:
    with open_plain(path) as file:
        first = file.read(100)
    if len(first) < 100 or not first.startswith(_MAGIC):
        return None
    page_size = _number(first, 16, 2)
    page_size = 65536 if page_size == 1 else page_size
    if _may_be_news(path, page_size, first):
        for page in _first_pages(path, page_size):
            first = page
    return Header(_number(first, 68, 4), _number(first, 60, 4), page_size, _number(first, 28, 4))


def _may_be_news(path: Path, page_size: int, first: bytes) -> bool:
    """Whether any frame of the journal, whole or not, has another answer than the file.

    As good as never, and to look is much less work than to add up all that lies there.
    """
    if not has_open_journal(path):
        return False
    with wal_path(path).open("rb") as journal:
        journal.seek(WAL_HEADER_BYTES)
        while len(frame := journal.read(_FRAME_HEADER + 100)) == _FRAME_HEADER + 100:
            page = frame[_FRAME_HEADER:]
            is_first = _number(frame, 0, 4) == 1
            if is_first and any(page[a:b] != first[a:b] for a, b in (_SCHEMA, _APPLICATION)):
                return True
            journal.seek(page_size - 100, os.SEEK_CUR)
    return False


def _first_pages(path: Path, page_size: int) -> Iterator[bytes]:
    """Every committed version of page 1 in the journal beside the file, oldest first."""
    waiting: bytes | None = None
    for head, page in _frames(path, page_size):
        if _number(head, 0, 4) == 1:
            waiting = page
        if _number(head, 4, 4) and waiting is not None:
            yield waiting
            waiting = None


def _frames(path: Path, page_size: int) -> Iterator[tuple[bytes, bytes]]:
    """Every frame of the journal that SQLite would take: up to the first that is not whole.

    After a power cut a frame may have its head and not its page. Each carries a checksum of
    all that is before it, which also tells what was left over from before the last checkpoint.
    """
    with wal_path(path).open("rb") as journal:
        start = journal.read(WAL_HEADER_BYTES)
        order = ">" if start[3] & 1 else "<"
        sums = _add_up((0, 0), start[:24], order)
        if sums != (_number(start, 24, 4), _number(start, 28, 4)):
            return
        while len(frame := journal.read(_FRAME_HEADER + page_size)) == _FRAME_HEADER + page_size:
            head, page = frame[:_FRAME_HEADER], frame[_FRAME_HEADER:]
            sums = _add_up(sums, head[:8] + page, order)
            told = (_number(head, 16, 4), _number(head, 20, 4))
            if head[8:16] != start[16:24] or sums != told:
                return
            yield head, page


def _add_up(sums: tuple[int, int], data: bytes, order: str) -> tuple[int, int]:
    """Carry the running checksum of a journal on over more bytes, as SQLite's format has it."""
    first, second = sums
    words = iter(struct.unpack(f"{order}{len(data) // 4}I", data))
    for one, two in zip(words, words, strict=True):
        first = (first + one + second) & 0xFFFFFFFF
        second = (second + two + first) & 0xFFFFFFFF
    return first, second


def _number(data: bytes, offset: int, size: int) -> int:
    return int.from_bytes(data[offset : offset + size], "big")
