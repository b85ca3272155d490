"""From the palette to the glass: millimetres to pixels, colours and fonts for Kivy."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from kivy import kivy_data_dir
from kivy.core.text import Label as CoreLabel
from kivy.metrics import Metrics

from crewapp.kit.look import fonts
from crewapp.kit.look.palette import CAP_PER_EM, rgb

MM_PER_INCH = 25.4
_FONTS = Path(kivy_data_dir) / "fonts"
ROBOTO = _FONTS / "Roboto-Regular.ttf"
DEJAVU = _FONTS / "DejaVuSans.ttf"


def px(length_mm: float) -> float:
    """Return a length on the glass in pixels, by the screen's true resolution."""
    return float(length_mm * Metrics.dpi / MM_PER_INCH)


def to_mm(pixels: float) -> float:
    """Return pixels as millimetres on the glass."""
    return float(pixels * MM_PER_INCH / Metrics.dpi)


def font_px(cap_mm: float) -> float:
    """Return the font size whose capitals are ``cap_mm`` high."""
    return px(cap_mm) / CAP_PER_EM


def rgba(code: str, alpha: float = 1.0) -> tuple[float, float, float, float]:
    """Return a colour of the palette as Kivy wants it."""
    return (*rgb(code), alpha)


def font_for(text: str) -> str:
    """Return the name or path of a font that has every character of the text."""
    path = fonts.choose_font(text, (ROBOTO, DEJAVU))
    return "Roboto" if path == ROBOTO else str(path)


@lru_cache(maxsize=4096)
def text_size_px(text: str, size_px: float, is_bold: bool, font: str) -> tuple[int, int]:
    """Return the width and height of one line of text in pixels."""
    label = CoreLabel(font_size=size_px, bold=is_bold, font_name=font)
    width, height = label.get_extents(text)
    return int(width), int(height)
