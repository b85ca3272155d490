"""A photo is copied beside the book under the name of its content, then logged."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from crewapp.commands.day import LogPhoto
from crewapp.commands.photos import KeepPhoto
from crewapp.handlers.day import log_photo
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.tablet.settings import write_atomically
from models.errors import CrewError
from models.plain_files import open_plain

LARGEST_BYTES = 25 * 1024 * 1024
_BEGINNINGS = {b"\xff\xd8\xff": "jpg", b"\x89PNG\r\n\x1a\n": "png"}


class PhotoRefusedError(CrewError, ValueError):
    """A file was to be kept as a photo that is none, or too large."""

    code = "photos.refused"
    sentence = (
        "{name} was not kept: {why}. A JPEG or PNG picture of no more than {most_mb} MB "
        "would be accepted."
    )


class PhotoUnreadableError(CrewError, OSError):
    """A photo could not be read, or not be copied beside the book."""

    code = "photos.unreadable"
    sentence = "{name} was not kept: {why}. Nothing was logged; choose the photo again."


@handles(KeepPhoto)
def keep_photo(job: OpenJob, command: KeepPhoto) -> JobChanges:
    """Copy a photo beside the book, durable, and log it.

    Raises
    ------
    PhotoRefusedError
        If the file is no picture, or too large; nothing is copied.
    PhotoUnreadableError
        If it can't be read or copied; nothing is logged.
    """
    source = Path(command.path)
    try:
        data = _read(source)
        digest, suffix = hashlib.sha256(data).hexdigest(), _suffix(source, data)
        kept = photo_folder(job.book.path) / f"{digest}.{suffix}"
        if not kept.exists():
            write_atomically(kept, data)
    except OSError as fault:
        raise PhotoUnreadableError(name=source.name, why=fault.strerror or str(fault)) from fault
    return log_photo(
        job, LogPhoto(sha256=digest, suffix=suffix, caption=command.caption, where=command.where)
    )


def photo_folder(book: Path) -> Path:
    """Return the folder of a book's photos: beside it, under its name."""
    return book.with_name(f"{book.name}.photos")


def _read(source: Path) -> bytes:
    """Read a file of no more than the limit; its size is asked of the open file."""
    with open_plain(source) as file:
        size = os.fstat(file.fileno()).st_size
        data = file.read(LARGEST_BYTES + 1) if size <= LARGEST_BYTES else b""
    if size > LARGEST_BYTES or len(data) > LARGEST_BYTES:
        why = f"it is larger than {LARGEST_BYTES // 1024 // 1024} MB"
        raise _refused(source, why)
    if not data:
        raise _refused(source, "it is empty")
    return data


def _suffix(source: Path, data: bytes) -> str:
    """Tell the kind of a picture by its beginning; its name may say anything."""
    for beginning, suffix in _BEGINNINGS.items():
        if data.startswith(beginning):
            return suffix
    raise _refused(source, "it is no JPEG or PNG picture")


def _refused(source: Path, why: str) -> PhotoRefusedError:
    return PhotoRefusedError(name=source.name, why=why, most_mb=LARGEST_BYTES // 1024 // 1024)
