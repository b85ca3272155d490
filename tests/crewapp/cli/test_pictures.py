"""``crewapp pictures``: a file for every screen, and something to see in each."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image as Picture

from crewapp.cli import main as cli
from crewapp.cli import pictures
from crewapp.pages.frame.page_list import PLACES
from tests.crewapp.pages.frame_driver import put_book

LEAST_COLOURS, LEAST_INK = 4, 2000


def look(path: Path) -> tuple[tuple[int, int], int, int]:
    """Return a picture's size, its colours, and how many pixels are not the page's."""
    with Picture.open(path) as picture:
        size = picture.size
        counts = [count for count, _ in picture.convert("RGB").getcolors(size[0] * size[1]) or []]
    return size, len(counts), sum(counts) - max(counts)


def is_opaque(path: Path) -> bool:
    """Whether nothing behind a picture shows through it, whatever colour a viewer has there."""
    from kivy.core.image import Image

    data = Image.load(str(path), keep_data=True).image._data[0]
    return data.fmt == "rgb" or set(bytes(data.data)[3::4]) == {255}


def test_every_screen_is_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All pages in the size asked for, none blank, without a display, the book as it was."""
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(pictures, "PROFILES", {"tiny": (1280, 800, 149)})
    monkeypatch.setattr(pictures, "TURNS", {"portrait": True})
    book = put_book(tmp_path)
    before = book.read_bytes()
    out = tmp_path / "out"
    assert cli.main(["pictures", "--book", str(book), "--out", str(out), "--json"]) == 0
    assert not [path.name for path in out.iterdir() if path.name.startswith(".")]
    drawn = {path.name.removesuffix("-portrait-tiny.png"): path for path in out.iterdir()}

    assert set(PLACES) <= set(drawn)
    assert {"jobs-new", "jobs-plans"} <= set(drawn)
    for path in drawn.values():
        size, colours, ink = look(path)
        assert size == (800, 1280)
        assert colours >= LEAST_COLOURS, path.name
        assert ink >= LEAST_INK, path.name
        assert is_opaque(path), path.name
    assert book.read_bytes() == before


def test_window_that_fell_over_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A machine that can't draw says so and ends with 2."""
    monkeypatch.setattr(pictures, "PROFILES", {"tiny": (1280, 800, 149)})
    monkeypatch.setattr("sys.executable", "/bin/false")
    out = str(tmp_path / "out")

    assert cli.main(["pictures", "--book", str(put_book(tmp_path)), "--out", out]) == 2
    assert "were not drawn" in capsys.readouterr().err


def test_book_that_is_none_draws_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Bad input: a sentence, exit 2."""
    (tmp_path / "no.book").write_text("no book", encoding="utf-8")
    out = tmp_path / "out"

    assert cli.main(["pictures", "--book", str(tmp_path / "no.book"), "--out", str(out)]) == 2
    assert "Cannot open" in capsys.readouterr().err
