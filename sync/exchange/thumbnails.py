"""Small pictures of photos, where this device can make them."""

from __future__ import annotations

from importlib.util import find_spec
from typing import Final

from sync.exchange.photos import Thumbnail
from sync.photo_copies import PhotoNotCopiedError, copy_photo

LONGEST_PX: Final = 480
_QUALITY = 70


def find_thumbnailer() -> Thumbnail | None:
    """Return what makes small pictures here, or None if nothing does."""
    return make_thumbnail if find_spec("PIL") is not None else None


def make_thumbnail(data: bytes) -> bytes | None:
    """Make a small JPEG of a photo, without what the camera noted; None if it can't be read."""
    try:
        return copy_photo(data, LONGEST_PX, _QUALITY).jpeg
    except PhotoNotCopiedError:
        return None
