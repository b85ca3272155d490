"""Small pictures of photos, so that others see them before the whole ones have come."""

from __future__ import annotations

import io

LONG_SIDE_PX, QUALITY = 480, 70


def small_picture(photo: bytes) -> bytes | None:
    """Return a small JPEG of a photo, or None if it can't be read here."""
    try:
        from PIL import Image, ImageOps  # heavy: only when a photo travels

        with Image.open(io.BytesIO(photo)) as whole:
            whole.draft("RGB", (LONG_SIDE_PX, LONG_SIDE_PX))
            picture = ImageOps.exif_transpose(whole).convert("RGB")
            picture.thumbnail((LONG_SIDE_PX, LONG_SIDE_PX))
            out = io.BytesIO()
            picture.save(out, "JPEG", quality=QUALITY)
    except Exception:  # a picture from anybody, read by a library with faults of its own
        return None
    return out.getvalue()
