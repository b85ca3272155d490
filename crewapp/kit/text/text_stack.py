"""Paragraphs under each other, in the largest letters in which all of them fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.look.palette import CAP_LEAST_MM, GAP_MM
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed

MOST_CAP_MM, STEP_MM, FIRST_MORE_MM = 4.2, 0.1, 0.6
MOST_LINES = 40


class TextStack(Widget):
    """``show_texts`` puts paragraphs in; the first is bold and a little larger."""

    def __init__(self, **kwargs: Any) -> None:
        self.texts: tuple[str, ...] = ()
        super().__init__(**kwargs)
        self.bind(pos=self._place, size=self._place)

    def show_texts(self, texts: Sequence[str]) -> None:
        """Show these paragraphs; empty ones are left out."""
        texts = tuple(text for text in texts if text)
        if texts != self.texts:
            self.texts = texts
            self.clear_widgets()
            for number, text in enumerate(texts):
                self.add_widget(
                    TextLabel(text=text, bold=not number, lines=MOST_LINES, valign="top")
                )
            self._place()

    def _heights(self, cap_mm: float) -> list[float]:
        """Return how high each paragraph is in letters of a size."""
        found = []
        for number, text in enumerate(self.texts):
            cap = self._cap(number, cap_mm)
            font, size = font_for(text), font_px(cap)
            lines = lines_needed(text, self.width, size, not number, font)
            found.append(lines * (text_size_px("Ag", size, not number, font)[1] + 1) + px(0.6))
        return found

    @staticmethod
    def _cap(number: int, cap_mm: float) -> float:
        return cap_mm if number else cap_mm + min(FIRST_MORE_MM, (cap_mm - CAP_LEAST_MM))

    def _place(self, *_: object) -> None:
        """Take the largest letters that fit, and lay the paragraphs from the top."""
        if not self.texts or self.width <= 1 or self.height <= 1:
            return
        cap, gaps = MOST_CAP_MM, px(GAP_MM) * (len(self.texts) - 1)
        while cap > CAP_LEAST_MM and sum(self._heights(cap)) + gaps > self.height:
            cap = max(cap - STEP_MM, CAP_LEAST_MM)
        top = self.top
        for number, (words, high) in enumerate(
            zip(self.children[::-1], self._heights(cap), strict=True)
        ):
            words.cap_mm = self._cap(number, cap)
            words.size, words.pos = (self.width, high), (self.x, top - high)
            top -= high + px(GAP_MM)
