"""Make names lasting: a file's bytes may be safe on the disk and its name be gone."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


def sync_names(folder: Path) -> None:
    """Make what was made, renamed or removed in a folder lasting, where the system can.

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


def make_folder(folder: Path, mode: int = 0o777) -> None:
    """Make a folder with those that it lies in, lasting; one that is there is left as it is.

    Raises
    ------
    OSError
        If the storage refuses.
    """
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True, mode=mode)
    for one in reversed(missing):
        sync_names(one.parent)


@contextmanager
def folder_for_good(folder: Path) -> Iterator[None]:
    """Make a folder with those it lies in; if what is done in it fails, take them away again.

    Raises
    ------
    OSError
        If the storage refuses.
    """
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    try:
        make_folder(folder)
        yield
    except BaseException:
        for one in missing:
            with suppress(OSError):  # something else lies in it by now
                one.rmdir()
        raise
