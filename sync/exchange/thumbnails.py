"""Small pictures of photos, where this device can make them."""

from __future__ import annotations

import io
from importlib.util import find_spec
from typing import Final

from sync.exchange.pictures import Thumbnail

LONGEST_PX: Final = 320
MOST_PIXELS: Final = 120_000_000
_QUALITY = 60


def find_thumbnailer() -> Thumbnail | None:
    """Return what makes small pictures here, or None if nothing does."""
    return small_picture if find_spec("PIL") is not None else None


def small_picture(data: bytes) -> bytes | None:
    """Make a small JPEG of a photo, without what the camera noted; None if it can't be read."""
    from PIL import Image, ImageOps  # heavy: only when there is a photo

    try:
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG")) as image:
            if image.width * image.height > MOST_PIXELS:
                return None
            image.draft("RGB", (LONGEST_PX, LONGEST_PX))
            small = (ImageOps.exif_transpose(image) or image).convert("RGB")
            small.thumbnail((LONGEST_PX, LONGEST_PX))
            out = io.BytesIO()
            small.save(out, "JPEG", quality=_QUALITY)
            return out.getvalue()
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return None
