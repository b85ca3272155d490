"""Photos made fit for paper: turned upright, made smaller, without what the camera noted."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image as Drawn

LONGEST_PX = 1400
MOST_PIXELS = 120_000_000
QUALITY = 72

PhotoFile = Callable[[str], bytes | None]
"""Gives the file of a photo by its name, or None where it is not at hand."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture fit to be printed, with its size in pixels."""

    jpeg: bytes
    width_px: int
    height_px: int


def fit_picture(data: bytes) -> Picture | None:
    """Make a picture small enough to print; None if it can't be read as one."""
    from PIL import Image, ImageOps, UnidentifiedImageError  # heavy: only when one is printed

    try:
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG")) as image:
            if image.width * image.height > MOST_PIXELS:
                return None
            image.draft("RGB", (LONGEST_PX, LONGEST_PX))
            upright = ImageOps.exif_transpose(image) or image
            flat = _without_alpha(upright)
            flat.thumbnail((LONGEST_PX, LONGEST_PX))
            out = io.BytesIO()
            flat.save(out, "JPEG", quality=QUALITY)
            return Picture(out.getvalue(), flat.width, flat.height)
    except (
        UnidentifiedImageError,
        OSError,
        ValueError,
        SyntaxError,
        Image.DecompressionBombError,
    ):
        return None


def _without_alpha(image: Drawn) -> Drawn:
    from PIL import Image

    if image.mode in {"RGBA", "LA", "P", "PA"}:
        layer = image.convert("RGBA")
        ground = Image.new("RGB", layer.size, (255, 255, 255))
        ground.paste(layer, mask=layer.getchannel("A"))
        return ground
    return image.convert("RGB")
