"""Reserve of disk space: a file given up when the disk is full, so that the crew can go on."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

RESERVE_BYTES = 8 * 1024 * 1024
_BLOCK_BYTES = 1024 * 1024


def reserve_path(path: Path) -> Path:
    """Return where the disk reserve of a book lies."""
    return path.with_name(path.name + ".ballast")


class DiskReserve:
    """The reserve of disk space of one book."""

    def __init__(self, book: Path, size: int = RESERVE_BYTES) -> None:
        self._path = reserve_path(book)
        self._size = size

    @property
    def is_allocated(self) -> bool:
        """Whether the whole reserve is on the disk."""
        try:
            return self._path.stat().st_size >= self._size
        except OSError:
            return False

    def allocate(self) -> bool:
        """Write the reserve if there is room to spare; return whether it is there."""
        if self.is_allocated:
            return True
        try:
            if shutil.disk_usage(self._path.parent).free < 2 * self._size:
                return False
            self._write()
        except OSError:
            self.release()
        return self.is_allocated

    def release(self) -> bool:
        """Free the reserve; return whether there was any to free."""
        try:
            had = self._path.stat().st_size > 0
            self._path.unlink()
        except OSError:
            return False
        return had

    def _write(self) -> None:
        # Random, and not zeros: a file system that compresses would keep no room for those.
        block = os.urandom(min(_BLOCK_BYTES, self._size))
        with self._path.open("wb") as file:
            left = self._size
            while left > 0:
                left -= file.write(block[:left])
