"""Lock that allows a book one writer; the operating system drops it with the process."""

from __future__ import annotations

import os
import sys
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl


def lock_path(path: Path) -> Path:
    """Return the lock file of a book's writer; it stays, and is empty."""
    return path.with_name(path.name + ".lock")


class WriterLock:
    """The right to write to a book, held until released or until the process ends."""

    def __init__(self, descriptor: int) -> None:
        self._descriptor: int | None = descriptor

    @classmethod
    def take(cls, path: Path) -> WriterLock | None:
        """Take the lock of the book at ``path``, or return None if another holds it.

        Raises
        ------
        OSError
            If the lock file cannot be made.
        """
        descriptor = os.open(lock_path(path), os.O_RDWR | os.O_CREAT, 0o666)
        try:
            if sys.platform == "win32":
                msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
            else:
                # flock and not lockf: that one is lost when any file handle is closed.
                fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            os.close(descriptor)
            return None
        return cls(descriptor)

    def release(self) -> None:
        """Release the lock; a second time is no error."""
        if self._descriptor is not None:
            # The file is left: removing it would let two writers hold two locks.
            os.close(self._descriptor)
            self._descriptor = None
