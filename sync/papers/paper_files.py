"""Files of a sheet put into a folder: all of them, or none and the folder as it was."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from models.book.file.fsync_folder import make_folder_or_undo
from models.plain_files import require_plain_or_absent


def write_atomically(path: Path, data: bytes) -> None:
    """Write beside the place, then rename into it; a pipe or a device there is left alone.

    Raises
    ------
    OSError
        If the storage refuses; the file of before, if any, is as it was.
    """
    _put({path: data})


def write_files_atomically(files: Mapping[Path, bytes]) -> list[Path]:
    """Put files of one sheet into their folder, made if need be, and return their paths.

    All of them lie on the disk before the first takes its name: a reader never meets the
    paper of today beside the table of yesterday.

    Raises
    ------
    OSError
        If the storage refuses; what was there is as it was, and no folder is left behind.
    """
    with make_folder_or_undo(next(iter(files)).parent):
        _put(files)
    return list(files)


def _put(files: Mapping[Path, bytes]) -> None:
    parts: dict[Path, Path] = {}
    try:
        for path, data in files.items():
            require_plain_or_absent(path)
            handle, name = tempfile.mkstemp(prefix=".part-", dir=path.parent)
            parts[path] = Path(name)
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, 0o644)
        for path, part in parts.items():
            os.replace(part, path)
    finally:
        for part in parts.values():
            with suppress(OSError):  # half of it would keep a full disk full
                part.unlink(missing_ok=True)
