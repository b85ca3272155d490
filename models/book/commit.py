"""Commit of entries: drafts become rows in one short transaction, or the reason why not.

A commit that fails means "unknown", not "not written". The row's id is looked up and the
same row, with the same id, is tried again; the file itself takes it once only.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import SQLAlchemyError

from models.book.carving import DAMAGE_CODES, cause_code, make_damage_error
from models.book.errors import (
    CommitUncertainError,
    EntryClashError,
    NoStrikeReasonError,
    NotCommittedError,
    UnknownStrikeError,
)
from models.book.file.disk_reserve import DiskReserve
from models.book.file.engine import Access, Driver, make_engine
from models.book.file.fsync_again import checkpoint_durably, is_journal_synced
from models.book.reading import COLUMNS, get_driver, rows_with_ids
from models.book.row import GENESIS, Draft, Row, is_same_entry, make_row, to_columns

_INSERT = f"INSERT INTO entry ({COLUMNS}) VALUES ({', '.join('?' * 16)})"
# By type as well: one damaged column is not to lead the numbers of all entries to come.
_HEAD = (
    "SELECT seq, hash, CASE typeof(lc) WHEN 'integer' THEN lc ELSE 0 END FROM entry "
    "WHERE stream = ? AND typeof(seq) = 'integer' ORDER BY seq DESC, lc DESC, id DESC LIMIT 1"
)
# Half of what a reader takes, so that a tablet that leaps to the end leaves the others room.
_LAST = (
    f"SELECT lc FROM entry WHERE typeof(lc) = 'integer' AND lc <= {2**39} "
    "ORDER BY lc DESC, id DESC LIMIT 1"
)

_TRIES = 3
_FEW = 16  # from here on it pays to hand the driver all rows at once
_NEARLY_FULL_BYTES = 1_000_000
_ROWS_BETWEEN_RELOADS = 64


class Committer:
    """The connection that writes to a book, with the last number and hash of its stream.

    The head of the stream and the highest counter are kept in memory: while this process
    holds the writer's lock nobody else can move them.
    """

    def __init__(self, path: Path, stream: str, reserve: DiskReserve) -> None:
        self._path = path
        self._stream = stream
        self._reserve = reserve
        self._engine: Engine = make_engine(path, Access.WRITE)
        self._taken = 0  # rows of the last writing that were new
        # A program that was killed may have left entries that can be read and were never synced.
        self._is_sync_owed = not is_journal_synced(path)
        self._doubted: set[str] = set()  # ids whose commit raised, and no more is known
        self._since_full = -1  # rows inked since the reserve was released; -1: it was not
        self._connect()

    def _connect(self) -> None:
        self.connection: Connection = self._engine.connect()
        self._driver: Driver = get_driver(self.connection)
        self._load_head()

    def _load_head(self) -> None:
        last = self._driver.execute(_LAST).fetchone()
        head = self._driver.execute(_HEAD, (self._stream,)).fetchone()
        self._lc: int = max(last[0] if last else 0, head[2] if head else 0)
        self._seq: int = head[0] if head else 0
        self._hash: bytes = head[1] if head else GENESIS

    def close(self) -> None:
        """Give the connection back; SQLite then brings the journal into the file."""
        self.connection.close()
        self._engine.dispose()

    def commit_all(self, drafts: Sequence[Draft]) -> list[Row]:
        """Write all drafts or none; drafts that are in the book already are not written again.

        Raises
        ------
        EntryClashError, UnknownStrikeError, NoStrikeReasonError, NotStorableError
            If a draft cannot stand in this book.
        NotCommittedError, CommitUncertainError
            If the storage failed: certainly not written, or unknown.
        BookDamagedError
            If the file turned out to be broken.
        """
        if not drafts:
            return []
        self._check(drafts)
        rows = self._seal(drafts)
        try:
            self._write(rows)
        except sqlite3.IntegrityError:
            return self._ink_the_rest(drafts)
        return rows

    def import_rows(self, rows: Sequence[Row]) -> int:
        """Store rows of other streams as they are, each once; return how many were new.

        Raises
        ------
        EntryClashError
            If a row's id is in the book with other bytes; nothing is then taken in.
        """
        if not rows:
            return 0
        try:
            self._write(rows)
        except sqlite3.IntegrityError as fault:
            known = rows_with_ids(self.connection, [row.id for row in rows])
            clash = next((row for row in rows if known.get(row.id, row) != row), rows[0])
            raise EntryClashError(id=clash.id) from fault
        finally:
            self._load_head()
        return self._taken

    def switch_stream(self, stream: str) -> None:
        """Write into another stream from now on."""
        self._stream = stream
        self._load_head()

    def _check(self, drafts: Sequence[Draft]) -> None:
        earlier: set[str] = set()
        for draft in drafts:
            if draft.id in earlier:
                raise EntryClashError(id=draft.id)
            if draft.strikes:
                self._check_strikes(draft, earlier)
            earlier.add(draft.id)

    def _check_strikes(self, draft: Draft, earlier: set[str]) -> None:
        if not draft.reason.strip():
            raise NoStrikeReasonError(id=draft.id)
        wanted = [struck for struck in draft.strikes if struck not in earlier]
        known = rows_with_ids(self.connection, wanted) if wanted else {}
        for struck in wanted:
            if struck not in known or struck == draft.id:
                raise UnknownStrikeError(id=draft.id, struck=struck)

    def _seal(self, drafts: Sequence[Draft]) -> list[Row]:
        rows: list[Row] = []
        previous = self._hash
        for number, draft in enumerate(drafts, start=1):
            row = make_row(draft, self._stream, self._seq + number, self._lc + number, previous)
            previous = row.hash
            rows.append(row)
        return rows

    def _ink_the_rest(self, drafts: Sequence[Draft]) -> list[Row]:
        """Settle a retry: the file refused because some ids are taken."""
        stored = rows_with_ids(self.connection, [draft.id for draft in drafts])
        for draft in drafts:
            if draft.id in stored and not is_same_entry(draft, stored[draft.id]):
                raise EntryClashError(id=draft.id)
        if not stored:
            raise EntryClashError(id=drafts[0].id)
        rest = self._seal([draft for draft in drafts if draft.id not in stored])
        if rest:
            self._write(rest)
        else:
            self._stand_by(list(stored.values()))
        stored.update((row.id, row) for row in rest)
        return [stored[draft.id] for draft in drafts]

    def _write(self, rows: Sequence[Row]) -> None:
        tries, fault = 0, sqlite3.Error()
        while tries < _TRIES:
            tries += 1
            try:
                self._transact(rows)
            except sqlite3.IntegrityError:
                raise
            except sqlite3.Error as failed:
                fault = failed
                if cause_code(fault) == sqlite3.SQLITE_BUSY:
                    break  # it has waited long enough already, and nothing was begun
            else:
                self._advance(rows)
                return
            if self._recover(fault) and self._are_lasting(rows):
                return
        self._give_in(rows, fault)

    def _transact(self, rows: Sequence[Row]) -> None:
        # The driver itself and not the engine's statements: these three are the hot path.
        execute = self._driver.execute
        self._taken = 0
        try:
            execute("BEGIN IMMEDIATE")
            before = self._driver.total_changes  # a row that is there already changes nothing
            if len(rows) > _FEW:
                self._driver.executemany(_INSERT, map(to_columns, rows))
            else:
                for row in rows:
                    execute(_INSERT, to_columns(row))
            self._taken = self._driver.total_changes - before
        except sqlite3.Error:
            self._roll_back()
            raise
        before_this = frozenset(self._doubted)
        self._doubted.update(row.id for row in rows)
        try:
            execute("COMMIT")
        except sqlite3.Error as fault:
            self._roll_back()
            # SQLite says "full" of a write alone, never of the sync after it: the frame
            # that makes the commit is then certainly not whole.
            if cause_code(fault) == sqlite3.SQLITE_FULL:
                self._doubted &= before_this
            raise
        self._pay_sync()  # a commit of what is there already syncs nothing

    def _pay_sync(self) -> None:
        """Make all that can be read lasting, if it may not be."""
        if self._is_sync_owed:
            checkpoint_durably(self._driver, self._path)
            self._is_sync_owed = False

    def _stand_by(self, rows: Sequence[Row]) -> None:
        """Say of rows that were found in the file that they are inked, once they are lasting."""
        try:
            self._pay_sync()
        except sqlite3.Error as fault:
            self._doubted.update(row.id for row in rows)
            self._give_in(rows, fault)
        self._doubted.difference_update(row.id for row in rows)

    def _roll_back(self) -> None:
        try:
            if self._driver.in_transaction:
                self._driver.execute("ROLLBACK")
        except sqlite3.Error:
            pass  # the first fault is the one to report; the connection is opened anew

    def _advance(self, rows: Sequence[Row]) -> None:
        self._seq, self._lc, self._hash = rows[-1].seq, rows[-1].lc, rows[-1].hash
        self._doubted.difference_update(row.id for row in rows)
        if self._since_full >= 0:
            self._since_full += len(rows)
            if self._since_full >= _ROWS_BETWEEN_RELOADS:
                self._since_full = -1 if self._reserve.allocate() else 0

    def _recover(self, fault: sqlite3.Error) -> bool:
        """Make room or a new connection; tell whether the file can be asked again."""
        self._is_sync_owed = True
        code = cause_code(fault)
        if code in DAMAGE_CODES:
            raise make_damage_error(self._path, str(fault)) from fault
        if self._is_full(code) and self._reserve.release():
            self._since_full = 0
        try:
            if not self.connection.closed:
                self.connection.invalidate()
                self.connection.close()
            self._connect()
        except (sqlite3.Error, SQLAlchemyError):
            return False
        return True

    def _is_full(self, code: int) -> bool:
        if code == sqlite3.SQLITE_FULL:
            return True
        try:
            free = shutil.disk_usage(self._path.parent).free
        except OSError:
            return False
        return code == sqlite3.SQLITE_IOERR and free < _NEARLY_FULL_BYTES

    def _are_lasting(self, rows: Sequence[Row]) -> bool:
        """Whether all rows are in the file after all, and synced to it."""
        try:
            if rows_with_ids(self.connection, [row.id for row in rows]) != {
                row.id: row for row in rows
            }:
                return False
            # The sync may be what failed, so what is readable need not be durable yet.
            self._pay_sync()
        except (sqlite3.Error, SQLAlchemyError):
            return False
        self._doubted.difference_update(row.id for row in rows)
        return True

    def _give_in(self, rows: Sequence[Row], fault: sqlite3.Error) -> NoReturn:
        ids = ", ".join(row.id for row in rows[:3]) + (" and more" if len(rows) > 3 else "")
        if any(row.id in self._doubted for row in rows):  # by this try, or by one before
            raise CommitUncertainError(ids=ids, why=str(fault)) from fault
        full = self._is_full(cause_code(fault))
        remedy = "Free some room on the tablet" if full else "Close other programs on this file"
        raise NotCommittedError(ids=ids, why=str(fault), remedy=remedy) from fault
