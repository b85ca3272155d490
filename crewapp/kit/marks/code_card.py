"""Card with a tablet's code in large groups, to be read out to another tablet."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.look.paint import DrawnWidget, cut_box, edge, fill, inset
from crewapp.kit.look.palette import EDGE_LINE_MM, INK, PAGE
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

HIGH_MM, NAME_MM, CUT_MM = 34.0, 7.0, 3.0
LETTERS_CAP_MM = 8.0


class CodeCard(DrawnWidget):
    """Card that shows ``code`` in two lines of two groups, as large as the width allows."""

    code = StringProperty("")
    redraw_on = ("code",)

    def __init__(self, **kwargs: Any) -> None:
        self.name_words = TextLabel(text=say("This tablet's code"), halign="center")
        self.letters = TextLabel(bold=True, cap_mm=LETTERS_CAP_MM, lines=2, halign="center")
        super().__init__(size_hint_y=None, height=px(HIGH_MM), **kwargs)
        self.add_widget(self.name_words)
        self.add_widget(self.letters)

    def draw(self) -> None:
        """Draw the card and its letters."""
        outline = cut_box(*inset(self, EDGE_LINE_MM / 2), px(CUT_MM))
        fill(outline, PAGE)
        edge(outline, INK, EDGE_LINE_MM)
        groups = self.code.split("-")
        half = len(groups) // 2
        self.letters.text = f"{' '.join(groups[:half])}\n{' '.join(groups[half:])}"
        pad = px(2.0)
        room = self.height - px(NAME_MM) - 2 * pad
        self.name_words.pos = (self.x + pad, self.top - pad - px(NAME_MM))
        self.name_words.size = (self.width - 2 * pad, px(NAME_MM))
        self.letters.pos = (self.x + pad, self.y + pad)
        self.letters.size = (self.width - 2 * pad, room)
