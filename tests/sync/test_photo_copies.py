"""Photos from anybody: what is no JPEG or PNG, too large or broken is a sentence, never a crash."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from crewapp.pages.exchange.transfers import Transfer
from crewapp.tablet.settings import Tablet
from sync.photo_copies import MOST_BYTES, PhotoNotCopiedError, copy_photo

Made = Callable[[], bytes]


def saved(mode: str, size: tuple[int, int], form: str, colour: object = 0, **how: object) -> bytes:
    """A picture of one colour as the bytes of a file."""
    out = io.BytesIO()
    Image.new(mode, size, colour).save(out, form, **how)  # type: ignore[arg-type]
    return out.getvalue()


EPS = saved("RGB", (40, 30), "EPS", "green")
REFUSED: dict[str, tuple[Made, str]] = {
    "nothing": (lambda: b"", "neither a JPEG nor a PNG"),
    "EPS under another name": (lambda: EPS, "neither a JPEG nor a PNG"),
    "GIF": (lambda: saved("P", (40, 30), "GIF"), "neither a JPEG nor a PNG"),
    "TIFF": (lambda: saved("RGB", (40, 30), "TIFF"), "neither a JPEG nor a PNG"),
    "first bytes of a JPEG before an EPS": (lambda: b"\xff\xd8\xff" + EPS, "cut short or damaged"),
    "JPEG cut short": (
        lambda: saved("RGB", (400, 300), "JPEG", "green")[:200],
        "a JPEG that is cut short or damaged",
    ),
    "PNG cut short": (
        lambda: saved("RGB", (400, 300), "PNG", "green")[:90],
        "a PNG that is cut short or damaged",
    ),
    "PNG of 169 megapixels": (
        lambda: saved("1", (13_000, 13_000), "PNG"),
        "a PNG of 169 megapixels, more than 26",
    ),
    "JPEG of 120 megapixels": (
        lambda: saved("L", (12_000, 10_000), "JPEG", quality=5),
        "a JPEG of 120 megapixels, more than 110",
    ),
    "CMYK JPEG of 64 megapixels in several passes": (
        lambda: saved("CMYK", (8_000, 8_000), "JPEG", quality=5, progressive=True),
        "of 64 megapixels that comes in several passes",
    ),
    "more bytes than any photo": (lambda: b"\xff\xd8\xff" + bytes(MOST_BYTES), "larger than 25 MB"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_can_not_be_opened_is_a_sentence(name: str) -> None:
    """What is no JPEG or PNG of a bearable size is refused with its reason."""
    make, why = REFUSED[name]

    with pytest.raises(PhotoNotCopiedError, match=why):
        copy_photo(make(), 480, 70)


def moving() -> bytes:
    """A PNG of two pictures that follow each other."""
    more = [Image.new("RGB", (800, 600), "red")]
    return saved("RGB", (800, 600), "PNG", "green", save_all=True, append_images=more)


def grey_of_16_bits() -> bytes:
    """A PNG whose grey has 16 bits: 40,000 of 65,535, which is 156 of 255."""
    out = io.BytesIO()
    picture = Image.frombytes("I;16", (800, 600), (40_000).to_bytes(2, "little") * 480_000)
    picture.save(out, "PNG")
    return out.getvalue()


OPENED: dict[str, tuple[Made, tuple[int, int, int]]] = {
    "JPEG": (lambda: saved("RGB", (800, 600), "JPEG", (10, 200, 30)), (10, 200, 30)),
    "CMYK JPEG": (lambda: saved("CMYK", (800, 600), "JPEG", (0, 255, 0, 0)), (255, 0, 255)),
    "moving PNG": (moving, (0, 128, 0)),
    "grey of 16 bits": (grey_of_16_bits, (156, 156, 156)),
    "two colours": (lambda: saved("1", (800, 600), "PNG", 1), (255, 255, 255)),
    "clear grey": (
        lambda: saved("L", (800, 600), "PNG", 77, transparency=77),
        (255, 255, 255),
    ),
}


@pytest.mark.parametrize("name", OPENED)
def test_odd_pictures_are_copied_in_their_colours(name: str) -> None:
    """Colours for print, 16 bits, two colours, clear places and moving pictures come out right."""
    make, colour = OPENED[name]
    made = copy_photo(make(), 480, 70)

    with Image.open(io.BytesIO(made.jpeg)) as image:
        assert image.size == (made.width_px, made.height_px) == (480, 360)
        met = image.convert("RGB").getpixel((100, 100))
    assert isinstance(met, tuple)
    assert all(abs(one - other) <= 2 for one, other in zip(met, colour, strict=True))


def test_no_program_is_started_for_a_photo_on_the_tablet(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page of PostScript that is called a photo runs no interpreter, where one is installed."""
    mark = tmp_path / "started"
    program = tmp_path / "gs"
    program.write_text(f"#!/bin/sh\ntouch {mark}\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")
    monkeypatch.setattr("PIL.EpsImagePlugin.gs_binary", None)
    make = Transfer(Tablet(tmp_path / "home"), lambda do: do(), lambda: None).terms("x").thumbnail  # type: ignore[arg-type, return-value]

    assert make is not None
    assert make(EPS) is None
    assert not mark.exists()
