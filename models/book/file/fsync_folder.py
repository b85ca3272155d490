"""Fsyncs a folder, so that a new file's name survives a power cut."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


def fsync_folder(folder: Path) -> None:
    """Fsync a folder after a file in it was made, renamed or removed, where the system can.

    Raises
    ------
    OSError
        If the storage refuses.
    """
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def make_folder_durably(folder: Path, mode: int = 0o777) -> None:
    """Make a folder durably, with its parents; an existing folder is left as it is.

    Raises
    ------
    OSError
        If the storage refuses.
    """
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True, mode=mode)
    for one in reversed(missing):
        fsync_folder(one.parent)


@contextmanager
def make_folder_or_undo(folder: Path) -> Iterator[None]:
    """Make a folder with its parents; take them away again if the block fails.

    Raises
    ------
    OSError
        If the storage refuses.
    """
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    try:
        make_folder_durably(folder)
        yield
    except BaseException:
        for one in missing:
            with suppress(OSError):  # something else lies in it by now
                one.rmdir()
        raise
