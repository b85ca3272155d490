"""A name in any script is written in a font that has its letters."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from crewapp.kit.look import fonts
from crewapp.words import translate as wording
from sync.papers.drawing.primitives import text_width_mm

FOLDER = Path(str(importlib.util.find_spec("kivy").origin)).parent / "data" / "fonts"  # type: ignore[union-attr] # Kivy is there
ROBOTO, DEJAVU = FOLDER / "Roboto-Regular.ttf", FOLDER / "DejaVuSans.ttf"


@pytest.mark.parametrize("letters", ["Aé½″′±≤≥°×−ñ¿", "Жя", "Ωλ"])
def test_roboto_has(letters: str) -> None:
    """Roboto writes Latin, Cyrillic, Greek and the signs of the trade."""
    assert fonts.choose_font(letters, (ROBOTO, DEJAVU)) == ROBOTO


@pytest.mark.parametrize("letters", ["→", "✓", "אב"])
def test_dejavu_steps_in(letters: str) -> None:
    """What Roboto lacks and DejaVu has is written in DejaVu."""
    assert fonts.missing_characters(letters, ROBOTO)
    assert fonts.choose_font(letters, (ROBOTO, DEJAVU)) == DEJAVU


def test_coverage_agrees_with_another_reader() -> None:
    """fontTools, which the PDF library brings, finds the same letters in both fonts."""
    tools = pytest.importorskip("fontTools.ttLib")
    for path in (ROBOTO, DEJAVU):
        assert fonts.coverage(path) - {0} == set(tools.TTFont(path).getBestCmap()) - {0}


def test_broken_font_has_nothing(tmp_path: Path) -> None:
    """A file that is no font never wins and never raises."""
    path = tmp_path / "broken.ttf"
    path.write_bytes(b"\x00\x01\x00\x00\x00\xff")

    assert fonts.coverage(path) == frozenset()
    assert fonts.coverage(tmp_path / "absent.ttf") == frozenset()


@pytest.mark.parametrize("code", sorted(wording.LANGUAGES))
def test_every_text_of_the_app_can_be_written(code: str) -> None:
    """E14: no box in place of a letter in any language of the app."""
    texts = {**wording.table(code), **dict.fromkeys(wording.table("es"), "")}

    assert fonts.missing_characters("".join([*texts, *texts.values()]), ROBOTO) == ""


@pytest.mark.parametrize("is_bold", [False, True])
@pytest.mark.parametrize(
    "text", ["0+125.50", "Profile, heights × 20", "−0.04 ft", "MWmw@%", "lil|"]
)
def test_layout_width_is_never_exceeded(text: str, is_bold: bool) -> None:
    """Labels kept apart by the layout's widths stay apart as Roboto draws them."""
    from crewapp.kit.look.palette import CAP_PER_EM
    from crewapp.kit.look.theme import text_size_px

    drawn = text_size_px(text, 100.0, is_bold, "Roboto")[0]

    assert drawn <= text_width_mm(text, 100.0 * CAP_PER_EM, is_bold)
