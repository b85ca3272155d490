"""Sentences, as many of them as the room holds, the most important first."""

from __future__ import annotations

from typing import Any

from kivy.properties import ListProperty

from crewapp.kit.look.palette import CAP_LABEL_MM, CAP_LEAST_MM
from crewapp.kit.look.theme import font_for, font_px
from crewapp.kit.text.label import TextLabel, line_height, lines_needed


class FitSentences(TextLabel):
    """``sentences`` from the first on; those that don't fit at the least size wait."""

    sentences = ListProperty([])

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("cap_mm", CAP_LABEL_MM)
        kwargs.setdefault("valign", "top")
        super().__init__(**kwargs)
        self.bind(size=self._choose, sentences=self._choose)
        self._choose()

    def needed_px(self) -> float:
        """Height that the first sentence needs at the least size, as wide as it is now."""
        if not self.sentences:
            return 0.0
        size_px, first = font_px(CAP_LEAST_MM), self.sentences[0]
        lines = lines_needed(first, self.width, size_px, False, font_for(first))
        return lines * line_height(size_px, False, font_for(first))

    def _choose(self, *_: object) -> None:
        """Take the longest beginning of the sentences that fits."""
        size_px = font_px(CAP_LEAST_MM)
        self.lines = int((self.height + 1) / line_height(size_px, False, "Roboto"))
        for count in range(len(self.sentences), 0, -1):
            text = "\n".join(self.sentences[:count])
            if lines_needed(text, self.width, size_px, False, font_for(text)) <= self.lines:
                self.text = text
                return
        self.text = ""
