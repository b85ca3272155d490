"""How far a long work is: a bar that fills, its words over it."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset
from crewapp.kit.look.palette import BLUE, EDGE_LINE_MM, INK, PAGE
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel

BAR_MM = 5.0


class WorkProgressBar(DrawnWidget):
    """``share`` from 0 to 1 fills the bar; ``text`` stands over it."""

    share = NumericProperty(0.0)
    text = StringProperty("")
    redraw_on = ("share", "text")

    def __init__(self, **kwargs: Any) -> None:
        self.words = TextLabel(cap_mm=4.0, bold=True, lines=3, valign="bottom")
        super().__init__(**kwargs)
        self.add_widget(self.words)

    def draw(self) -> None:
        """Draw the bar and put the words over it."""
        high = px(BAR_MM)
        x, y, width, _ = inset(self, EDGE_LINE_MM / 2)
        fill(box(x, y, width, high), PAGE)
        fill(box(x, y, width * min(max(self.share, 0.0), 1.0), high), BLUE)
        edge(box(x, y, width, high), INK, EDGE_LINE_MM)
        self.words.text = self.text
        self.words.pos = (self.x, y + high + px(1.0))
        self.words.size = (self.width, max(self.height - high - px(1.5), 0.0))
