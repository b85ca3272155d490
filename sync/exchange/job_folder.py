"""Folders of a job beside its book: its segments, photos and notes on this device."""

from __future__ import annotations

import contextlib
import os
from dataclasses import dataclass
from pathlib import Path

from models.book.file.fsync_folder import fsync_folder, make_folder_durably
from sync.exchange.errors import LocalStorageError
from sync.segments.file_name import SegmentName
from sync.segments.limits import PACKED_BYTES


@dataclass(frozen=True, slots=True)
class JobFolder:
    """Folders of one job. Segments are saved so that they can be passed on as they are."""

    folder: Path
    photos: Path

    @classmethod
    def of_book(cls, book: Path) -> JobFolder:
        """Return the place of a book's job."""
        return cls(book.with_name(f"{book.name}.sync"), book.with_name(f"{book.name}.photos"))

    @property
    def thumbs(self) -> Path:
        """Folder of small pictures of the photos."""
        return self.photos / "thumbs"

    @property
    def log(self) -> Path:
        """File of notes on earlier exchanges; without it no entry is lost."""
        return self.folder / "ledger.json"

    def names(self) -> set[SegmentName]:
        """Return the names of all segments kept here; whatever else lies there is passed over."""
        try:
            found = os.listdir(self._segments)
        except OSError:
            return set()
        return {name for text in found if (name := SegmentName.find(text)) and str(name) == text}

    def read(self, name: SegmentName) -> bytes:
        """Return the bytes of a kept segment, one more than the limit at most; ``b""`` if lost."""
        try:
            with (self._segments / str(name)).open("rb") as file:
                return file.read(PACKED_BYTES + 1)
        except OSError:
            return b""

    def size(self, name: SegmentName) -> int:
        """Return the size of a kept segment."""
        try:
            return (self._segments / str(name)).stat().st_size
        except OSError:
            return 0

    def save_segment(self, name: SegmentName, data: bytes) -> None:
        """Save a segment, durable and whole, under its name.

        Raises
        ------
        LocalStorageError
            If the storage refuses.
        """
        write_atomically(self._segments / str(name), data)

    @property
    def _segments(self) -> Path:
        return self.folder / "seg"


def write_atomically(path: Path, data: bytes) -> None:
    """Write a file under another name, make it durable, give it its name, and that durable too.

    Raises
    ------
    LocalStorageError
        If the storage refuses; the file of before, if any, is as it was.
    """
    part = path.with_name(f".{path.name[:100]}.part")
    try:
        make_folder_durably(path.parent)
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
        fsync_folder(path.parent)
    except OSError as fault:
        with contextlib.suppress(OSError):  # a full disk is not to stay full of it
            part.unlink(missing_ok=True)
        raise LocalStorageError(name=path.name, why=fault.strerror or str(fault)) from fault
