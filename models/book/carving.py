"""Recovery of entries from a damaged SQLite file, read-only."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from types import TracebackType

from sqlalchemy.exc import DBAPIError

from models.book.errors import BookDamagedError, StorageError
from models.book.file.engine import Access, Driver, has_open_journal, make_engine, wal_path
from models.book.reading import COLUMNS, decode_lossy, get_driver
from models.book.row import Row, from_columns, from_raw
from models.book.verify import verify_rows

DAMAGE_CODES = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
_LONGEST = 1_000_000
_MOST_PADDING = 64  # times its own length
_START = b'{"at_ms":'  # the first key, in alphabetical order, of the bytes of every entry
_WALKS = ("id", "lc, id", "stream, seq", "job, kind")  # one for each tree in the file


def make_damage_error(path: Path, what: str) -> BookDamagedError:
    """Make the error for a damaged file, with the number of entries that can be recovered."""
    rows = carve_rows(path)
    readable = len(rows) - len(verify_rows(rows).faults)
    return BookDamagedError(path=path, what=what, readable=readable)


class translate_sqlite_errors:  # noqa: N801 -- reads as a sentence after "with"
    """Turn SQLite's errors within a ``with`` block into our own.

    A plain class because every entry passes through it: a generator costs more to enter.

    Raises
    ------
    BookDamagedError
        If the file is broken, with the number of entries that can still be read.
    StorageError
        If it could not be read or written for another reason.
    """

    __slots__ = ("_path",)

    def __init__(self, path: Path) -> None:
        self._path = path

    def __enter__(self) -> None:
        """Nothing is to be done before there is a fault."""

    def __exit__(
        self, kind: object, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        cause = fault.orig if isinstance(fault, DBAPIError) else fault
        if not isinstance(cause, sqlite3.Error):
            return
        if cause_code(cause) in DAMAGE_CODES:
            raise make_damage_error(self._path, str(cause)) from fault
        raise StorageError(path=self._path, why=str(cause)) from fault


def cause_code(fault: BaseException | None) -> int:
    """Return SQLite's primary code of a fault, 0 if it has none."""
    return int(getattr(fault, "sqlite_errorcode", 0)) & 0xFF


def carve_rows(path: Path) -> list[Row]:
    """Recover every row of a damaged file, by any way into it, stream by stream.

    Whether they are what was once written is for the hash chain to say.
    """
    rows: dict[str, Row] = {}
    with _copy_if_needed(path) as (file, access):
        try:
            engine = make_engine(file, access)
            with engine.connect() as connection:
                driver = get_driver(connection)
                driver.text_factory = decode_lossy
                for id in _find_ids(driver):
                    rows.update(_fetch(driver, id))
        except (sqlite3.Error, DBAPIError):
            pass  # not even its first page: what the bytes show is all there is
    for row in _carve(path):
        rows.setdefault(row.id, row)
    return sorted(rows.values(), key=_place)


def _place(row: Row) -> tuple[str, int, str]:
    # As text and number: the columns of a damaged row may hold anything.
    return (str(row.stream), row.seq if isinstance(row.seq, int) else 0, row.id)


@contextmanager
def _copy_if_needed(path: Path) -> Iterator[tuple[Path, Access]]:
    """Give a file to read from: this one, or a copy where reading it would mean writing.

    A journal beside a file can only be read where one may write, and SQLite reads a file
    that is cut short only when it has been brought to its length again, with nothing in it.
    """
    missing = _bytes_missing(path)
    if not missing and not has_open_journal(path):
        yield path, Access.SNAPSHOT
        return
    with TemporaryDirectory(prefix="book-") as folder:
        copy = Path(folder) / "copy.book"
        shutil.copyfile(path, copy)
        with copy.open("ab") as file:
            file.truncate(copy.stat().st_size + missing)
        if has_open_journal(path):
            shutil.copyfile(wal_path(path), wal_path(copy))
        yield copy, Access.READ


def _bytes_missing(path: Path) -> int:
    with path.open("rb") as file:
        first = file.read(32)
    page_size = int.from_bytes(first[16:18], "big")
    told = (65536 if page_size == 1 else page_size) * int.from_bytes(first[28:32], "big")
    missing = max(0, told - path.stat().st_size)
    # A header that is itself damaged may tell any length: such a file is read as it is.
    return missing if missing <= _MOST_PADDING * path.stat().st_size else 0


def _find_ids(driver: Driver) -> list[str]:
    """Every id that any tree of the file still gives, walked from both of its ends."""
    ids: dict[str, None] = {}
    for order in _WALKS:
        for direction in ("", " DESC"):
            columns = ", ".join(f"{column}{direction}" for column in order.split(", "))
            try:
                for (id,) in driver.execute(f"SELECT id FROM entry ORDER BY {columns}"):
                    ids[str(id)] = None
            except sqlite3.Error:
                continue
            break  # the whole tree was walked
    return list(ids)


def _fetch(driver: Driver, id: str) -> dict[str, Row]:
    try:
        values = driver.execute(f"SELECT {COLUMNS} FROM entry WHERE id = ?", (id,)).fetchone()
    except sqlite3.Error:
        return {}
    return {} if values is None else {id: from_columns(values)}


def _carve(path: Path) -> Iterator[Row]:
    """Find entries by their bytes alone, each with its hash behind it as it lies in a page.

    Only in the file: the journal beside it may hold entries that were never committed.
    """
    try:
        data = path.read_bytes()
    except OSError:
        return
    decoder = json.JSONDecoder()
    at = data.find(_START)
    while at >= 0:
        text = data[at : at + _LONGEST].split(b"\x00", 1)[0].decode(errors="replace")
        try:
            _, length = decoder.raw_decode(text)
            end = at + len(text[:length].encode())
            yield from_raw(data[at:end], data[end : end + 32])
        except (ValueError, TypeError, RecursionError):
            pass
        at = data.find(_START, at + 1)
