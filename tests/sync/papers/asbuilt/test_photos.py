"""Photos in the record: shown where their file is at hand, small, upright, without notes."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from sync.papers.asbuilt.pages.photo_files import LONGEST_PX, fit_picture
from sync.papers.asbuilt.pdf_file import build_as_built_pdf
from sync.photo_copies import PhotoCopy
from tests.sync.papers.asbuilt.conftest import facts_of_book
from tests.sync.papers.asbuilt.record_books import us_record
from tests.sync.papers.pdf_reading import run, text_of

TURNED = 0x0112
"""Number of the note in which a camera says how it was held."""


def picture(width: int, height: int, form: str = "JPEG", mode: str = "RGB") -> bytes:
    """A picture of one colour, held sideways by its camera where it is a JPEG."""
    out = io.BytesIO()
    image = Image.new(mode, (width, height), "green")
    if form == "JPEG":
        notes = image.getexif()
        notes[TURNED] = 6
        image.save(out, form, exif=notes)
    else:
        image.save(out, form)
    return out.getvalue()


def test_large_photo_is_made_small_and_upright() -> None:
    """A photo of 3000 x 2000 taken sideways comes out 933 x 1400, with no note of the camera."""
    made = fit_picture(picture(3000, 2000))

    assert isinstance(made, PhotoCopy)
    assert (made.height_px, made.width_px) == (LONGEST_PX, 933)
    assert not Image.open(io.BytesIO(made.jpeg)).getexif()


def test_clear_places_of_a_png_become_white() -> None:
    """What shines through a PNG is paper, since a file for keeping may hold nothing clear."""
    out = io.BytesIO()
    Image.new("RGBA", (8, 8), (255, 0, 0, 0)).save(out, "PNG")
    made = fit_picture(out.getvalue())

    assert isinstance(made, PhotoCopy)
    assert Image.open(io.BytesIO(made.jpeg)).getpixel((4, 4)) == (255, 255, 255)


def test_what_is_no_picture_has_a_reason_instead() -> None:
    """Rubbish, a picture cut short, and an empty file are told apart from pictures."""
    assert fit_picture(b"") == "it is neither a JPEG nor a PNG"
    assert fit_picture(b"GIF89a" + b"\0" * 40) == "it is neither a JPEG nor a PNG"
    assert fit_picture(picture(400, 300)[:200]) == "it is a JPEG that is cut short or damaged"


def test_photo_at_hand_is_printed_with_its_caption(tmp_path: Path) -> None:
    """The picture is in the file, its caption and the start of its digest beside it."""
    path = tmp_path / "record.pdf"
    data = picture(800, 600)
    path.write_bytes(build_as_built_pdf(facts_of_book(us_record()), file_of=lambda name: data))
    text = text_of(path)

    assert run("pdfimages", "-list", str(path)).count("jpeg") == 1
    assert "Photo 1. Joint at 0+40, looking east, C1" in text
    assert "SHA-256 abababababababab..." in text
    assert "Not printed" not in text


def test_photo_that_is_not_at_hand_stands_in_the_table(tmp_path: Path) -> None:
    """Without its file a photo keeps its caption and its whole digest, and paper says so."""
    path = tmp_path / "record.pdf"
    path.write_bytes(build_as_built_pdf(facts_of_book(us_record())))
    text = text_of(path)

    assert run("pdfimages", "-list", str(path)).count("jpeg") == 0
    assert "Joint at 0+40, looking east" in text
    assert "Not printed: 1. No file with that digest" in text
    assert "ababababab" in text


def test_spoilt_photo_is_told_and_stops_nothing(tmp_path: Path) -> None:
    """A file that is no picture leaves the reason in its box and below the table."""
    path = tmp_path / "record.pdf"
    facts = facts_of_book(us_record())
    path.write_bytes(build_as_built_pdf(facts, file_of=lambda name: b"not a picture"))
    text = text_of(path)

    assert "Its file can't be read as a picture: it is neither a JPEG nor a PNG." in text
    assert "Not printed, since they can't be read as pictures: 1 (it is neither a JPEG" in text
    assert "No file with that digest" not in text
