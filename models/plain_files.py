"""Opens plain files and nothing else: a pipe would block, a device has no end."""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO, Final

_OPENING: Final = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_OTHERS: Final = {
    stat.S_IFDIR: "a folder",
    stat.S_IFIFO: "a pipe",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
    stat.S_IFSOCK: "a socket",
}


class NotAPlainFileError(OSError):
    """A name leads to something else than a plain file; ``found`` says what it is."""

    def __init__(self, path: Path, found: str) -> None:
        super().__init__(0, f"it is {found}, not a file", str(path))
        self.found = found


def open_plain(path: Path) -> BinaryIO:
    """Open a plain file to read, never blocking on the other end of a pipe.

    Raises
    ------
    NotAPlainFileError
        If there is a folder, a pipe, a device or a socket.
    OSError
        If it is not there, or can't be opened.
    """
    _require_plain(path, os.stat(path).st_mode)
    file = os.fdopen(os.open(path, _OPENING), "rb")
    try:
        _require_plain(path, os.fstat(file.fileno()).st_mode)  # another may lie there by now
    except BaseException:
        file.close()
        raise
    return file


def require_plain_or_absent(path: Path) -> None:
    """Refuse a name that something else than a plain file has.

    Raises
    ------
    NotAPlainFileError
        If there is a folder, a pipe, a device or a socket, which a file would replace.
    OSError
        If it can't be told.
    """
    with suppress(FileNotFoundError):
        _require_plain(path, os.stat(path).st_mode)


def _require_plain(path: Path, mode: int) -> None:
    if not stat.S_ISREG(mode):
        raise NotAPlainFileError(path, _OTHERS.get(stat.S_IFMT(mode), "something else"))
