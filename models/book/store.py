"""Book of a job: an append-only store that writes, strikes and reads entries."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from threading import RLock
from typing import Any

from pydantic import BaseModel
from sqlalchemy import Connection

from models.book.carving import translate_sqlite_errors
from models.book.commit import Committer
from models.book.copies import back_up
from models.book.errors import BookReadOnlyError, NotABookError
from models.book.file.disk_reserve import RESERVE_BYTES, DiskReserve
from models.book.file.lock import WriterLock
from models.book.opening import create_file, open_to_read, open_to_write, why_read_only
from models.book.reading import (
    chunk_in_order,
    chunk_of_stream,
    count_rows,
    hashes_at,
    newest_of,
    read_heads,
    rows_of_kinds,
    rows_with_ids,
    walk_streams,
)
from models.book.row import Draft, Row
from models.book.verify import BookReport, structure_faults, verify_rows
from models.book.views import refresh_views
from models.closing import Closing


class Book(Closing):
    """A job's book, open: by its one writer, or by a reader with the reason why.

    Made by :meth:`open` or :meth:`create`. It may be used from several threads: each
    call has the book to itself for as long as it takes.
    """

    def __init__(
        self,
        path: Path,
        committer: Committer | None,
        reader: Connection | None,
        lock: WriterLock | None,
        reserve: DiskReserve,
        read_only_reason: str | None,
    ) -> None:
        self.path = path
        self.read_only_reason = read_only_reason
        self._committer = committer
        self._reader = reader
        self._writer_lock = lock
        self._reserve = reserve
        self._turn = RLock()

    @classmethod
    def create(cls, path: Path, *, stream: str, reserve_bytes: int = RESERVE_BYTES) -> Book:
        """Make a new, empty book and open it.

        Raises
        ------
        BookExistsError
            If there is a file of that name; it is left as it is.
        """
        create_file(path)
        return cls.open(path, stream=stream, reserve_bytes=reserve_bytes)

    @classmethod
    def open(
        cls,
        path: Path,
        *,
        stream: str = "",
        read_only: bool = False,
        reserve_bytes: int = RESERVE_BYTES,
    ) -> Book:
        """Open a book; to read only if wanted, or if nothing else is possible.

        Parameters
        ----------
        path : Path
            The file.
        stream : str
            The stream that new entries belong to; needed only to write.
        read_only : bool
            Whether to leave the file untouched.
        reserve_bytes : int
            Room to keep aside against a full disk. [bytes]

        Raises
        ------
        NoSuchBookError, BookForbiddenError, NotABookError, BookTooNewError
            If there is no book there that can be opened; the file is untouched.
        BookDamagedError
            If the file is broken; it says how many entries can still be read.
        SettingsRefusedError
            If the file system cannot keep a commit safe.
        """
        path = Path(path)
        if not path.name:  # the top of the disk, or the folder in hand
            raise NotABookError(path=path, found="a folder")
        reserve = DiskReserve(path, reserve_bytes)
        reason, lock = why_read_only(path, reserve, read_only or not stream)
        try:
            with translate_sqlite_errors(path):
                if lock is None:
                    return cls(path, None, open_to_read(path), None, reserve, reason)
                committer = open_to_write(path, stream, reserve)
                return cls(path, committer, None, lock, reserve, None)
        except BaseException:
            if lock is not None:
                lock.release()
            raise

    def close(self) -> None:
        """Close the file and let the next writer in; a second time is no error."""
        with self._turn:
            if self._committer is not None:
                self._committer.close()
            if self._reader is not None:
                self._reader.close()
            if self._writer_lock is not None:
                self._writer_lock.release()
            self._committer = self._reader = self._writer_lock = None

    @property
    def is_reserve_spent(self) -> bool:
        """Whether the reserve of disk space is gone: the disk is full, or nearly so."""
        return not self._reserve.is_allocated

    def commit(
        self,
        *,
        id: str,
        kind: str,
        v: int,
        body: dict[str, Any],
        at_ms: int,
        offset_min: int,
        zone: str,
        author: str,
        job: str,
        day: str,
        strikes: tuple[str, ...] = (),
        reason: str = "",
        needs: tuple[str, ...] = (),
    ) -> Row:
        """Write an entry; when this returns, the entry is on the disk. See :meth:`commit_all`."""
        draft = Draft(
            id=id,
            kind=kind,
            v=v,
            body=body,
            at_ms=at_ms,
            offset_min=offset_min,
            zone=zone,
            author=author,
            job=job,
            day=day,
            strikes=strikes,
            reason=reason,
            needs=needs,
        )
        return self.commit_all([draft])[0]

    def commit_all(self, drafts: Sequence[Draft]) -> list[Row]:
        """Write all of these entries, or none of them.

        An entry that is in the book already, with the same id and the same words, is not
        written again: its row is returned. So a call that failed can simply be repeated.

        Raises
        ------
        BookReadOnlyError
            If this book is open to be read.
        EntryClashError, UnknownStrikeError, NoStrikeReasonError, NotStorableError
            If an entry cannot stand in this book; nothing was written.
        NotCommittedError
            If the storage failed and nothing was written.
        CommitUncertainError
            If the storage failed and it is not known whether the entries are written.
        """
        with self._turn, translate_sqlite_errors(self.path):
            return self._writer().commit_all(drafts)

    def import_rows(self, rows: Sequence[Row]) -> int:
        """Store rows of another book, byte for byte; return how many were new here.

        The caller has verified them. Raises as :meth:`commit_all` does.
        """
        with self._turn, translate_sqlite_errors(self.path):
            return self._writer().import_rows(rows)

    def rows(self, after_lc: int | None = None) -> Iterator[Row]:
        """Every row in the order of entries, (lc, id); or those with a higher counter."""
        place = (after_lc or 0, "\U0010ffff" if after_lc else "")
        while chunk := self._chunk(*place):
            yield from chunk
            place = (chunk[-1].lc, chunk[-1].id)

    def find(self, ids: Sequence[str]) -> dict[str, Row]:
        """Return the rows with these ids; ids that the book does not know are left out."""
        with self._turn, translate_sqlite_errors(self.path):
            return rows_with_ids(self._connection(), ids)

    def newest(self, kind: str) -> Row | None:
        """Return the row of a kind written last, so that a list of books reads no whole book."""
        with self._turn, translate_sqlite_errors(self.path):
            return newest_of(self._connection(), kind)

    def of_kinds(self, kinds: Sequence[str]) -> list[Row]:
        """Return every row of some rare kinds, in the order of entries."""
        with self._turn, translate_sqlite_errors(self.path):
            return rows_of_kinds(self._connection(), kinds)

    def of_stream(self, stream: str, after_seq: int = 0) -> Iterator[Row]:
        """Every row of one stream in the order of its numbers, those after ``after_seq``."""
        place = (after_seq, "\U0010ffff")
        while True:
            with self._turn, translate_sqlite_errors(self.path):
                chunk = chunk_of_stream(self._connection(), stream, *place)
            if not chunk:
                return
            yield from chunk
            place = (chunk[-1].seq, chunk[-1].id)

    def hashes_at(self, stream: str, seq: int) -> set[bytes]:
        """Return the hashes of the rows with a number of a stream; several in a fork."""
        with self._turn, translate_sqlite_errors(self.path):
            return hashes_at(self._connection(), stream, seq)

    def switch_stream(self, stream: str) -> None:
        """Write into another stream from now on: this tablet took a new identity."""
        with self._turn, translate_sqlite_errors(self.path):
            self._writer().switch_stream(stream)

    def heads(self) -> dict[str, tuple[int, bytes]]:
        """Return the last number and hash of each stream."""
        with self._turn, translate_sqlite_errors(self.path):
            return read_heads(self._connection())

    def count(self) -> int:
        """Return how many entries the book holds."""
        with self._turn, translate_sqlite_errors(self.path):
            return count_rows(self._connection())

    def verify(self) -> BookReport:
        """Check every row against its bytes and its chain, and the file's structure."""
        with self._turn, translate_sqlite_errors(self.path):
            connection = self._connection()
            return verify_rows(walk_streams(connection), structure_faults(connection))

    def backup(self, target: Path) -> None:
        """Write a whole, checked copy of the book to a new file, while it is in use.

        Raises
        ------
        CopyFailedError
            If there is a file already, no room, or the copy does not hold.
        """
        with self._turn, translate_sqlite_errors(self.path):
            back_up(self._connection(), self.path, Path(target))

    def refresh_views(self, models: Mapping[str, type[BaseModel]]) -> bool:
        """Make the views of these kinds anew if the file has others; tell whether it did."""
        if self._committer is None:
            return False
        with self._turn, translate_sqlite_errors(self.path):
            return refresh_views(self._connection(), models)

    def _chunk(self, after_lc: int, after_id: str) -> list[Row]:
        with self._turn, translate_sqlite_errors(self.path):
            return chunk_in_order(self._connection(), after_lc, after_id)

    def _writer(self) -> Committer:
        if self._committer is None:
            reason = self.read_only_reason or "it is closed. Open it again."
            raise BookReadOnlyError(path=self.path, reason=reason)
        return self._committer

    def _connection(self) -> Connection:
        connection = self._committer.connection if self._committer is not None else self._reader
        if connection is None:
            raise BookReadOnlyError(path=self.path, reason="it is closed. Open it again.")
        return connection
