"""A danger to people: the word DANGER, white on dark red, and what to do first."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset
from crewapp.kit.look.palette import INK, OXIDE, PAGE
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed
from crewapp.words.translate import say

CAP_MM = 4.6
WORD_MM = 4.6
PANEL_MM = 9.0


class DangerNote(DrawnWidget):
    """``text`` says what to do, large; ``title`` stands beside the word. Only for injury.

    The height follows from the text; without one the panel with the word is all.
    """

    text = StringProperty("")
    title = StringProperty("")
    redraw_on = ("text", "title")

    def __init__(self, **kwargs: Any) -> None:
        self.word = TextLabel(text=say("DANGER"), bold=True, cap_mm=WORD_MM, tone=PAGE)
        self.words = TextLabel(cap_mm=CAP_MM, lines=8, tone=INK)
        super().__init__(size_hint_y=None, height=px(20.0), **kwargs)
        self.add_widget(self.word)
        self.add_widget(self.words)

    def _text_high(self) -> float:
        size, font = font_px(CAP_MM), font_for(self.text)
        room = max(self.width - px(6.0), px(10.0))
        lines = lines_needed(self.text, room, size, False, font)
        line = text_size_px("Ag", size, False, font)[1] + 1
        return float(min(lines, 8) * line + px(4.0)) if self.text else 0.0

    def arrange(self) -> None:
        """Be as high as the words need."""
        self.height = self._text_high() + px(PANEL_MM)

    def draw(self) -> None:
        """Draw the signal word on its panel and the words under it."""
        x, y, width, height = inset(self, 0.4)
        fill(box(x, y, width, height), PAGE)
        panel = min(px(PANEL_MM), height)
        fill(box(x, y + height - panel, width, panel), OXIDE)
        edge(box(x, y, width, height), OXIDE, 0.8)
        word = say("DANGER")
        self.word.text = f"{word}: {self.title}" if self.title else word
        self.word.pos, self.word.size = (x + px(3.0), y + height - panel), (width - px(6.0), panel)
        self.words.text = self.text
        self.words.pos = (x + px(3.0), y + px(1.0))
        self.words.size = (width - px(6.0), max(height - panel - px(2.0), 0))
