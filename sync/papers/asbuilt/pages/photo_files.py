"""Photos made fit for paper, each opened once; where one can't be, the reason stands instead."""

from __future__ import annotations

from collections.abc import Callable

from sync.photo_copies import PhotoCopy, PhotoNotCopiedError, copy_photo

LONGEST_PX = 1400
QUALITY = 72

PhotoFile = Callable[[str], bytes | None]
"""Gives the file of a photo by its name, or None where it is not at hand."""


class PhotoPrints:
    """The photos of one record as they are printed, by the names of their files."""

    def __init__(self, file_of: PhotoFile) -> None:
        self._file_of = file_of
        self._made: dict[str, PhotoCopy | str | None] = {}

    def print_of(self, name: str) -> PhotoCopy | str | None:
        """Return the copy for paper, or why none can be made; None if there is no file."""
        if name not in self._made:
            data = self._file_of(name)
            self._made[name] = fit_picture(data) if data is not None else None
        return self._made[name]


def fit_picture(data: bytes) -> PhotoCopy | str:
    """Make a photo small enough to print, or return why it can't be."""
    try:
        return copy_photo(data, LONGEST_PX, QUALITY)
    except PhotoNotCopiedError as fault:
        return str(fault.context["why"])
