"""Small copies of photos: the one place where a picture from anybody is opened.

A photo is written by whoever had a tablet or a store in hand, so it is told by its first
bytes, never by its name, and only JPEG and PNG are opened: the library knows forms that
start a program of the machine. What is large is refused by its head, before it is unpacked.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from models.errors import CrewError

if TYPE_CHECKING:
    from PIL.Image import Image as Drawn

FORMS: Final = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG"}
"""First bytes of the forms that are opened, with their names."""
MOST_BYTES: Final = 25 * 1024 * 1024
MOST_MEGAPIXELS: Final = {"JPEG": 110, "PNG": 26}
"""A JPEG is unpacked at an eighth of its size, a PNG whole."""
MOST_HELD_BYTES: Final = 384 * 1024 * 1024
"""Room for the unpacked parts of a JPEG that comes in several passes, which are all held."""
_BYTES_PER_PART: Final = 2
_PASS = b"\xff\xda"
_MADE_SMALL_AS_THEY_ARE = frozenset({"RGB", "RGBA", "L", "LA", "CMYK"})


class PhotoNotCopiedError(CrewError, ValueError):
    """A file that is kept as a photo can't be opened as one."""

    code = "photos.not_copied"
    sentence = (
        "No copy of the photo could be made: {why}. A JPEG of at most 110 megapixels or a PNG "
        "of at most 26 would be opened; the file stays as it is."
    )


@dataclass(frozen=True, slots=True)
class PhotoCopy:
    """A JPEG made of a photo, with its size in pixels; nothing the camera noted is in it."""

    jpeg: bytes
    width_px: int
    height_px: int


def copy_photo(data: bytes, longest_px: int, quality: int) -> PhotoCopy:
    """Make a small upright JPEG of a photo, no side of it longer than ``longest_px``.

    What is clear in a PNG becomes white; of moving pictures the first is taken.

    Raises
    ------
    PhotoNotCopiedError
        If it is no JPEG or PNG, is too large, or can't be read; ``why`` on ``context``.
    """
    form = next((form for start, form in FORMS.items() if data.startswith(start)), "")
    if not form:
        raise PhotoNotCopiedError(why="it is neither a JPEG nor a PNG")
    if len(data) > MOST_BYTES:
        raise PhotoNotCopiedError(why=f"it is larger than {MOST_BYTES // 1024 // 1024} MB")
    try:
        return _copy(data, form, longest_px, quality)
    except PhotoNotCopiedError:
        raise
    except MemoryError as fault:
        raise PhotoNotCopiedError(why="there was too little memory to open it") from fault
    except Exception as fault:  # read by a library with faults of its own, none of one root
        raise PhotoNotCopiedError(why=f"it is a {form} that is cut short or damaged") from fault


def _copy(data: bytes, form: str, longest_px: int, quality: int) -> PhotoCopy:
    from PIL import Image, ImageOps  # heavy: only when there is a photo

    Image.MAX_IMAGE_PIXELS = None  # our own bound is narrower, and is told in a sentence
    with Image.open(io.BytesIO(data), formats=(form,)) as image:
        _require_size(image, data, form)
        image.draft("RGB", (longest_px, longest_px))
        ImageOps.exif_transpose(image, in_place=True)
        if image.mode in _MADE_SMALL_AS_THEY_ARE:  # first, so that no second large one is held
            image.thumbnail((longest_px, longest_px))
        flat = _without_alpha(image)
        flat.thumbnail((longest_px, longest_px))
        out = io.BytesIO()
        flat.save(out, "JPEG", quality=quality)
        return PhotoCopy(out.getvalue(), flat.width, flat.height)


def _require_size(image: Drawn, data: bytes, form: str) -> None:
    pixels, most = image.width * image.height, MOST_MEGAPIXELS[form]
    if pixels > most * 1_000_000:
        why = f"it is a {form} of {pixels // 1_000_000} megapixels, more than {most}"
        raise PhotoNotCopiedError(why=why)
    held = int(pixels * _parts_per_pixel(image) * _BYTES_PER_PART) if data.count(_PASS) > 1 else 0
    if form == "JPEG" and held > MOST_HELD_BYTES:
        why = f"it is a JPEG of {pixels // 1_000_000} megapixels that comes in several passes"
        raise PhotoNotCopiedError(why=why)


def _parts_per_pixel(image: Drawn) -> float:
    """How many figures a JPEG holds for each pixel, by how finely its colours are kept."""
    layers: list[tuple[int, int, int, int]] = getattr(image, "layer", [])
    if not layers:
        return float(len(image.getbands()))
    across, down = (max(1, *(layer[n] for layer in layers)) for n in (1, 2))
    return sum(layer[1] * layer[2] for layer in layers) / (across * down)


def _without_alpha(image: Drawn) -> Drawn:
    from PIL import Image

    if image.mode.startswith("I"):  # 16 bits of grey, of which paper shows the upper eight
        grey = image.convert("I").point(lambda value: value * (1 / 256))
        return grey.convert("L").convert("RGB")
    if image.mode in {"RGBA", "LA", "P", "PA"} or "transparency" in image.info:
        layer = image.convert("RGBA")
        ground = Image.new("RGB", layer.size, (255, 255, 255))
        ground.paste(layer, mask=layer.getchannel("A"))
        return ground
    return image.convert("RGB")
