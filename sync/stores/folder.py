"""A store in a folder: a stick, a network share, or one that another program keeps in step."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from sync.stores.contract import DEEPEST, ListedFile, check_folder, check_name, is_name
from sync.stores.errors import (
    NotInStoreError,
    NotStoredError,
    StoreNameTakenError,
    StoreRefusedError,
    StoreUnreachableError,
    TooLargeError,
)
from sync.stores.fault_text import system_store_error
from sync.stores.partial_files import is_piece_of, temporary

# Some file systems of sticks know no second name for a file.
_NO_LINKS = {errno.EPERM, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK, errno.EINVAL}
_OPENING = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)


class FolderStore:
    """Keeps each file whole: written beside, made durable, given its name, made durable again.

    The folder itself must be there: making it would fill the tablet in place of a stick that
    was pulled out.
    """

    def __init__(self, root: Path) -> None:
        self.root = root
        self.where = str(root)

    def list(self, folder: str) -> list[ListedFile]:
        """Return the files below a folder by name; see the protocol.

        Raises
        ------
        BadNameError
            If the folder is no name that a store takes.
        StoreError
            If the store is not there or does not let us read.
        """
        with self._telling("list its files"):
            start = self._place(check_folder(folder))
            return sorted(self._walk(start, folder), key=lambda one: one.name)

    def read(self, name: str, limit: int) -> bytes:
        """Return the bytes of a file of at most ``limit``; see the protocol.

        Raises
        ------
        NotInStoreError
            If no such file is there.
        TooLargeError
            If it holds more than ``limit`` bytes.
        StoreError
            If the store is not there or does not let us read, or the name is none.
        """
        with self._telling(f"give {check_name(name)}"):
            try:
                data = _read(self._place(name), limit + 1)
            except (FileNotFoundError, NotADirectoryError, IsADirectoryError):
                raise NotInStoreError(name=name, where=self.where) from None
        if len(data) > limit:
            raise TooLargeError(name=name, where=self.where, limit=limit)
        return data

    def write(self, name: str, data: bytes) -> None:
        """Put a file into the folder, durably; see the protocol.

        A file under that name that holds a piece of the bytes and nothing else, as a copy
        that was cut off does, gives way to the whole.

        Raises
        ------
        StoreNameTakenError
            If something else has the name, or one that differs by case only.
        StoreError
            If the store is not there or does not let us write, or the name is none.
        """
        with self._telling(f"take {check_name(name)}"):
            place = self._place(name)
            self._make_folders(name)
            met = _read(place, len(data) + 1) if os.path.lexists(place) else None
            if met == data:
                _make_lasting(place)  # whoever put it there may have been cut off before this
                return
            if met is not None and not is_piece_of(met, data):
                raise StoreNameTakenError(name=name, where=self.where, taken=name)
            _put(place, data, replaces=met is not None)
            if _read(place, len(data) + 1) != data:  # a share may have kept something else
                raise NotStoredError(name=name, where=self.where, size=len(data))

    def close(self) -> None:
        """Do nothing: a folder is not held open."""

    @contextlib.contextmanager
    def _telling(self, act: str) -> Iterator[None]:
        """Turn what the operating system says into a sentence."""
        try:
            if not self.root.is_dir():
                raise StoreUnreachableError(where=self.where, why="its folder is not there")
            yield
        except StoreUnreachableError:
            raise
        except OSError as error:
            if hasattr(error, "context"):  # one of ours already
                raise
            raise system_store_error(self.where, act, error) from None

    def _place(self, name: str) -> Path:
        """Return where a name lies, which is inside the root whatever links stand there."""
        place = self.root / name
        inside = Path(os.path.realpath(self.root))
        if Path(os.path.realpath(place.parent)) != inside / Path(name).parent and name:
            why, remedy = "a link in it leads elsewhere", "Take the link away by hand"
            raise StoreRefusedError(where=self.where, act=f"use {name}", why=why, remedy=remedy)
        return place

    def _walk(self, folder: Path, name: str) -> Iterator[ListedFile]:
        """Yield the files below a folder, without those that come or go meanwhile."""
        try:
            entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
        except (FileNotFoundError, NotADirectoryError):
            return
        for entry in entries:
            below = f"{name}/{entry.name}" if name else entry.name
            if not is_name(below):
                continue
            if entry.is_dir(follow_symlinks=False) and below.count("/") < DEEPEST - 1:
                yield from self._walk(Path(entry.path), below)
            elif entry.is_file(follow_symlinks=False):
                with contextlib.suppress(FileNotFoundError):
                    yield ListedFile(below, entry.stat(follow_symlinks=False).st_size)

    def _make_folders(self, name: str) -> None:
        """Make the folders of a name, each durable before the next.

        Raises
        ------
        StoreNameTakenError
            If a part of the name stands there in other letters, large for small.
        """
        folder = self.root
        for part in name.split("/"):
            _check_case(folder, part, name, self.where)
            if folder / part == self.root / name:
                break
            if not (folder / part).is_dir():
                with contextlib.suppress(FileExistsError):
                    (folder / part).mkdir()
                _sync(folder)
            folder /= part


def _check_case(folder: Path, part: str, name: str, where: str) -> None:
    """Refuse a name when one that differs by case only is there; a stick would hold one alone."""
    for met in os.listdir(folder):
        if met != part and met.casefold() == part:
            raise StoreNameTakenError(name=name, where=where, taken=met)


def _put(place: Path, data: bytes, replaces: bool) -> None:
    """Write a file beside its place and move it there, each step made durable."""
    fresh = Path(temporary(str(place)))
    try:
        with open(fresh, "xb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        if replaces:
            fresh.replace(place)
        else:
            _give_name(fresh, place)
    except BaseException:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise
    _sync(place.parent)


def _give_name(fresh: Path, place: Path) -> None:
    """Move a file to a place where none is; one that came meanwhile is not overwritten.

    Where the file system has no links, one that came in this very moment is: two that write
    the same name write the same bytes, and the reader's hash finds out those that do not.
    """
    try:
        os.link(fresh, place)
    except FileExistsError:
        fresh.unlink()
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        fresh.replace(place)
    else:
        fresh.unlink()


def _read(place: Path, most: int) -> bytes:
    """Return the first bytes of a plain file; a pipe or a device is none."""
    with _opened(place) as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(errno.EISDIR, "not a file")
        return file.read(most)


def _opened(place: Path) -> BinaryIO:
    """Open a file for reading, never waiting for the other end of a pipe."""
    return os.fdopen(os.open(place, _OPENING), "rb")


def _make_lasting(place: Path) -> None:
    """Make a file that is there already durable, its name with it."""
    _sync(place)
    _sync(place.parent)


def _sync(path: Path) -> None:
    """Make a file's bytes, or the names in a folder, durable, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
