"""Small files of the tablet that are written whole, or are as they were."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from models.book.file.fsync_folder import fsync_folder, make_folder_durably
from models.errors import CrewError


class NotSavedError(CrewError, OSError):
    """The tablet's storage refused a file other than a book, whole or in part."""

    code = "tablet.not_kept"
    sentence = (
        "Not kept on this tablet: {what} ({why}). It still stands on the screen, and what was "
        "inked is safe. Make room on the tablet, then go on."
    )


def write_atomically(
    path: Path, data: bytes, *, is_secret: bool = False, is_lasting: bool = True
) -> None:
    """Write a file under a temporary name, make it durable, give it its name, and that too.

    A secret one can be read by its owner alone, from its first byte on. One that need not
    last is whole at any time as well, but a power cut may bring back the one before.

    Raises
    ------
    NotSavedError
        If the storage refuses; the file of before, if any, is as it was, or the new one is
        there and may not last.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        make_folder_durably(path.parent)
        mode = 0o600 if is_secret else 0o666
        with open(part, "wb", opener=lambda name, flags: os.open(name, flags, mode)) as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
        if is_lasting:
            fsync_folder(path.parent)
    except BaseException as fault:
        with suppress(OSError):  # cut off, or on a full disk: half of it helps nobody
            part.unlink(missing_ok=True)
        if isinstance(fault, OSError):
            raise NotSavedError(what=path.name, why=fault.strerror or str(fault)) from fault
        raise
