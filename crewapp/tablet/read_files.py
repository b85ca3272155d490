"""Reads files that come from people; size and text are checked before use."""

from __future__ import annotations

from pathlib import Path

from models.errors import CrewError
from models.plain_files import open_plain

LONGEST_BYTES = 16 * 1024 * 1024


class FileUnreadableError(CrewError, OSError):
    """A file was named that can't be read as text."""

    code = "files.unreadable"
    sentence = "Cannot read {path}: {why}. {forms} would be read; nothing was written."


def read_text(path: Path, forms: str) -> str:
    """Read a text file of bounded size, UTF-8 with or without a byte-order mark.

    ``forms`` says what would be accepted, for the sentence of the error.

    Raises
    ------
    FileUnreadableError
        If it is missing, not a file, too large, or not UTF-8 text.
    """
    return decode_text(path, read_bytes(path, forms), forms)


def read_bytes(path: Path, forms: str) -> bytes:
    """Read a file of bounded size as it is."""
    try:
        with open_plain(path) as file:
            data = file.read(LONGEST_BYTES + 1)  # what has no end is not read to it
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or str(fault)
        raise FileUnreadableError(path=path, why=why, forms=forms) from fault
    if len(data) > LONGEST_BYTES:
        why = f"it holds more than {LONGEST_BYTES:,} bytes"
        raise FileUnreadableError(path=path, why=why, forms=forms)
    return data


def decode_text(path: Path, data: bytes, forms: str) -> str:
    """Decode UTF-8 text, or say at which byte it stops being text."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        why = f"byte {fault.start + 1} is not UTF-8 text"
        raise FileUnreadableError(path=path, why=why, forms=forms) from fault
    if "\0" in text:
        why = f"character {text.index(chr(0)) + 1} is a NUL, so it is no text"
        raise FileUnreadableError(path=path, why=why, forms=forms)
    return text
