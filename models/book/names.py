"""Make names lasting: a file's bytes may be safe on the disk and its name be gone."""

from __future__ import annotations

import os
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
