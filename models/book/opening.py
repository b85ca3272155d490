"""Opening of a book: who may write, what is checked first, and how to read on a full disk."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from sqlalchemy import Connection
from sqlalchemy.exc import DBAPIError

from models.book.carving import DAMAGE_CODES, cause_code, make_damage_error
from models.book.commit import Committer
from models.book.errors import BookExistsError, BookForbiddenError, BookNotCreatedError
from models.book.file.disk_reserve import DiskReserve
from models.book.file.engine import Access, has_open_journal, make_engine, wal_path
from models.book.file.fsync_folder import fsync_folder
from models.book.file.lock import WriterLock
from models.book.header import inspect
from models.book.schema import migrate
from models.book.steps import STEPS

_ASKED = "it was opened to be read. Open it to write."
_FORBIDDEN = "this user has no permission to write to it. Ask its owner for access."
_TAKEN = (
    "another window or program has it open to write, so here it is open to be read. "
    "Close it there, then open it here again."
)


def _why_not_made(folder: Path) -> str:
    """What is wrong with the folder of a new book, where the database's word hides it."""
    if not folder.is_dir():
        return "its folder is not there"
    is_effective = os.access in os.supports_effective_ids  # who runs it, not who started it
    may_write = os.access(folder, os.W_OK | os.X_OK, effective_ids=is_effective)
    return "" if may_write else "its folder may not be written to"


def create_file(path: Path) -> None:
    """Make an empty book; a file of that name appears only when it is whole.

    Raises
    ------
    BookExistsError, BookForbiddenError, BookNotCreatedError, SettingsRefusedError
        If it cannot be made; nothing is left behind.
    """
    if path.exists():
        raise BookExistsError(path=path)
    part = path.with_name(path.name + ".part")
    try:
        part.unlink(missing_ok=True)
        migrate(part, 0, Access.CREATE)
        engine = make_engine(part, Access.WRITE)  # sets the journal mode
        with engine.connect():
            pass
        # A link and not a rename: it fails if the name was taken meanwhile.
        publish(part, path)
    except FileExistsError as fault:
        raise BookExistsError(path=path) from fault
    except PermissionError as fault:
        raise BookForbiddenError(path=path, act="make") from fault
    except (DBAPIError, OSError) as fault:
        why = str(fault.orig) if isinstance(fault, DBAPIError) else str(fault.strerror)
        raise BookNotCreatedError(path=path, why=_why_not_made(path.parent) or why) from fault
    finally:
        for rest in (part, wal_path(part), part.with_name(part.name + "-shm")):
            rest.unlink(missing_ok=True)


def publish(part: Path, path: Path) -> None:
    """Give a finished file its name, durably, without replacing another.

    Raises
    ------
    FileExistsError
        If the name is taken.
    """
    with part.open("rb") as file:
        os.fsync(file.fileno())
    try:
        os.link(part, path)
    except FileExistsError:
        raise
    except OSError:  # sticks and some tablets have no links
        if path.exists():
            raise FileExistsError(errno.EEXIST, "the name is taken", str(path)) from None
        part.rename(path)
    part.unlink(missing_ok=True)
    fsync_folder(path.parent)


def why_read_only(
    path: Path, reserve: DiskReserve, is_asked: bool
) -> tuple[str | None, WriterLock | None]:
    """Inspect the file and try for its lock; return a reason to read only, or the lock.

    Raises
    ------
    NoSuchBookError, BookForbiddenError, NotABookError, BookTooNewError, BookDamagedError
        If the file is not one to open at all; it is untouched.
    """
    inspect(path)
    if is_asked:
        return _ASKED, None
    if not os.access(path, os.W_OK) or not os.access(path.absolute().parent, os.W_OK):
        return _FORBIDDEN, None
    try:
        lock = WriterLock.take(path)
    except OSError as fault:
        if fault.errno != errno.ENOSPC or not reserve.release():
            return _FORBIDDEN, None
        lock = WriterLock.take(path)
    return (None, lock) if lock is not None else (_TAKEN, None)


def open_to_write(path: Path, stream: str, reserve: DiskReserve) -> Committer:
    """Bring the file to this version and open it for writing; the caller holds the lock.

    Raises
    ------
    SettingsRefusedError
        If the file system cannot keep a commit safe.
    """
    found = inspect(path).schema  # again, now that nobody else can write
    _look_over(path)
    try:
        return _open_committer(path, found, stream, reserve)
    except DBAPIError as fault:
        # On a full disk not even the file beside the book can be made.
        if _is_damage(fault) or not reserve.release():
            raise
        return _open_committer(path, found, stream, reserve, reload=False)


def _open_committer(
    path: Path, found: int, stream: str, reserve: DiskReserve, reload: bool = True
) -> Committer:
    if found < len(STEPS):
        migrate(path, found, Access.MIGRATE)
    committer = Committer(path, stream, reserve)
    if reload:
        reserve.allocate()
    return committer


def _look_over(path: Path) -> None:
    """Have the pages checked by a connection that cannot write: a broken file stays as it is."""
    way = Access.READ if has_open_journal(path) else Access.SNAPSHOT
    try:
        with make_engine(path, way).connect() as connection:
            _require_whole(path, connection)
    except DBAPIError as fault:
        if _is_damage(fault):
            raise
        # Otherwise there is no room for the file beside it: the writer makes some.


def _require_whole(path: Path, connection: Connection) -> None:
    found = connection.exec_driver_sql("PRAGMA quick_check(1)").fetchall()[0][0]
    if found != "ok":
        raise make_damage_error(path, str(found))


def open_to_read(path: Path) -> Connection:
    """Open a file for reading in the way that asks least of the disk.

    Raises
    ------
    DBAPIError
        If none does.
    """
    ways = [Access.READ]
    # The first needs a small file beside the book, which a full disk has no room for.
    ways.append(Access.ALONE if has_open_journal(path) else Access.SNAPSHOT)
    for way in ways:
        try:
            connection = make_engine(path, way).connect()
            _require_whole(path, connection)
        except DBAPIError as fault:
            if way is ways[-1] or _is_damage(fault):
                raise
        else:
            return connection
    raise AssertionError("unreachable")


def _is_damage(fault: DBAPIError) -> bool:
    return cause_code(fault.orig) in DAMAGE_CODES
