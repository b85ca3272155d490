"""Words on the page, sized by the height of their capitals, made to fit their box."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.label import Label

from crewapp.kit.look.palette import CAP_LABEL_MM, CAP_LEAST_MM, INK
from crewapp.kit.look.theme import font_for, font_px, px, rgba, text_size_px

STEP_MM = 0.1
BROKEN = 1_000
MEASURE_PX, SAFETY = 64.0, 1.01


def lines_needed(text: str, width_px: float, size_px: float, is_bold: bool, font: str) -> int:
    """Return how many lines the text takes when wrapped at spaces.

    A word wider than the line takes endless lines: it would be broken.
    """
    # One measure a word, scaled: measuring at every size tried would open the font anew
    # for each, which took a third of a second for one sentence.
    scale = size_px / MEASURE_PX * SAFETY

    def wide_of(word: str) -> float:
        return text_size_px(word, MEASURE_PX, is_bold, font)[0] * scale

    space = wide_of(" ")
    lines = 0
    for paragraph in text.split("\n"):
        lines, at = lines + 1, 0.0
        for word in paragraph.split(" "):
            wide = wide_of(word)
            if at and at + space + wide > width_px:
                lines, at = lines + 1, 0.0
            at += (space if at else 0) + wide
            if wide > width_px:
                lines += BROKEN
    return lines


def line_height(size_px: float, is_bold: bool, font: str) -> float:
    """Return how tall a line is at a size, scaled from the size that words are measured at."""
    return text_size_px("Ag", MEASURE_PX, is_bold, font)[1] * size_px / MEASURE_PX


class TextLabel(Label):
    """Text in one tone. ``cap_mm`` is the wish; it shrinks to ``least_mm`` to fit.

    ``lines`` is the most lines it may take. ``is_cut`` tells that even the least
    size did not fit. With ``grows`` the height follows the text instead.
    """

    cap_mm = NumericProperty(CAP_LABEL_MM)
    least_mm = NumericProperty(CAP_LEAST_MM)
    tone = StringProperty(INK)
    lines = NumericProperty(1)
    grows = BooleanProperty(False)
    is_cut = BooleanProperty(False)

    def __init__(self, **kwargs: Any) -> None:
        self._refit = Clock.create_trigger(self._fit, -1)
        kwargs.setdefault("halign", "left")
        kwargs.setdefault("valign", "middle")
        if kwargs.get("grows"):
            kwargs.setdefault("size_hint_y", None)
        super().__init__(**kwargs)
        for name in ("size", "text", "cap_mm", "least_mm", "bold", "lines", "grows"):
            self.fbind(name, self._refit)
        self.fbind("tone", self._colour)
        self._colour()
        self._fit()

    def _colour(self, *_: object) -> None:
        self.color = rgba(self.tone)
        self.disabled_color = rgba(self.tone)

    def fit(self) -> float:
        """Fit at once, for who must know the result now; return the size in pixels."""
        self._fit()
        return float(self.font_size)

    def _fit(self, *_: object) -> None:
        """Take the largest size that fits, and break lines at the box's width.

        What is too long even then ends in dots, and ``is_cut`` tells so.
        """
        self.font_name = font_for(self.text)
        cap_mm = self.cap_mm
        while not (fits := self._fits(cap_mm)) and cap_mm > self.least_mm:
            cap_mm = max(cap_mm - STEP_MM, self.least_mm)
        self.is_cut = not fits
        self.font_size = font_px(cap_mm)
        self.text_size = (self.width, None)
        self.shorten_from = "right"
        self.shorten = self.is_cut and self.lines == 1
        self.max_lines = 0 if fits or self.grows else int(self.lines)
        if self.grows:
            self.texture_update()
            self.height = max(self.texture_size[1], px(cap_mm))

    def _fits(self, cap_mm: float) -> bool:
        """Whether the text fits at a size."""
        if not self.text:
            return True
        size_px, bold = font_px(cap_mm), bool(self.bold)
        needed = lines_needed(self.text, self.width, size_px, bold, self.font_name)
        if self.grows:
            return needed <= self.lines or self.lines <= 1
        line_px = line_height(size_px, bold, self.font_name)
        return needed <= self.lines and needed * line_px <= self.height + 1


def plain_height_mm(cap_mm: float, lines: int = 1) -> float:
    """Return the height that lines of capitals of a size take."""
    return lines * cap_mm * 1.66
