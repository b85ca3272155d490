"""How far this tablet's entries of each book have come, kept beside the books.

Entries taken away from the end of a book leave a chain that is whole. So the number
and hash of the last one are kept in the tablet's folder, outside the book, after each
ink. They are not synced: after a power cut they may lag behind, never run ahead.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from models.book.file.fsync_folder import make_folder_durably
from models.book.row import Row
from models.book.store import Book
from models.errors import CrewError

_DIGEST = 16


class EntriesMissingError(CrewError, ValueError):
    """A book lacks entries at its end that this tablet wrote into it."""

    code = "book.entries_missing"
    sentence = (
        "Entries are missing at the end of {path}: this tablet wrote up to number {kept} of "
        "stream {stream}, and the book {met}. It may be an older copy, or entries were taken "
        "away. Take in what the other tablets, the office or a backup have of them."
    )


@dataclass(frozen=True, slots=True)
class SavedHead:
    """The last entry that a stream of this tablet wrote into a book."""

    stream: str
    seq: int
    hash: bytes


class SavedHeads:
    """Last entries of each book and stream, a small file each, written after each commit."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def keep(self, book: Path, row: Row) -> None:
        """Keep where a stream has come to; a storage that refuses stops no entry."""
        told = f"{row.seq:012d} {row.hash.hex()} {row.stream} {_name(book)}"
        data = f"{_digest(told)} {told}\n".encode()
        with suppress(OSError):
            self._write(self.folder / f"{_digest(f'{_name(book)} {row.stream}')}.head", data)

    def _write(self, path: Path, data: bytes) -> None:
        flags = os.O_WRONLY | os.O_CREAT
        try:
            file = os.open(path, flags, 0o644)
        except FileNotFoundError:
            make_folder_durably(path.parent)
            file = os.open(path, flags, 0o644)
        try:
            os.write(file, data)  # of one length for one book and stream: no need to cut it
        finally:
            os.close(file)

    def heads_of(self, book: Path) -> Iterator[SavedHead]:
        """Heads kept of a book; a file that was cut short or half written says nothing."""
        for path in sorted(self.folder.glob("*.head")):
            with suppress(OSError, ValueError):
                digest, told = path.read_text(encoding="utf-8").rstrip("\n").split(" ", 1)
                seq, hash_hex, stream, name = told.split(" ", 3)
                if digest == _digest(told) and name == _name(book):
                    yield SavedHead(stream, int(seq), bytes.fromhex(hash_hex))


def missing_entries(book: Book, heads: SavedHeads) -> list[EntriesMissingError]:
    """Return what a book lacks at the end of the streams that this tablet wrote into it."""
    return [
        EntriesMissingError(path=book.path.name, kept=head.seq, stream=head.stream[:8], met=met)
        for head in heads.heads_of(book.path)
        if (met := _met(book, head))
    ]


def _met(book: Book, head: SavedHead) -> str:
    """What stands in place of a head, "" where it is there."""
    found = book.hashes_at(head.stream, head.seq)
    if head.hash in found:
        return ""
    if found:
        return "has another entry of that number"
    last, _ = book.heads().get(head.stream, (0, b""))
    return f"ends at number {last}" if last else "has none of them"


def _name(book: Path) -> str:
    """A path as a word of one length; whatever bytes it has."""
    return hashlib.sha256(os.fsencode(book.absolute())).hexdigest()[:_DIGEST]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:_DIGEST]
