"""Words with a shape before them, never tapped: a caution at the foot, a go-ahead that is good."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.look.paint import DrawnWidget, status_shape
from crewapp.kit.look.palette import CAP_LEAST_MM, Status
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed

SHAPE_MM, LEFT_MM, ABOVE_MM = 4.0, 5.6, 0.2
MOST_LINES = 3


class MarkLine(DrawnWidget):
    """``text`` in as many lines as its width asks for; ``high_for`` tells the height.

    ``status`` gives its shape: the triangle unless something else is set.
    """

    text = StringProperty("")
    status = StringProperty(Status.CHECK)
    redraw_on = ("text", "status")

    def __init__(self, **kwargs: Any) -> None:
        self.words = TextLabel(cap_mm=CAP_LEAST_MM, lines=MOST_LINES)
        kwargs.setdefault("size_hint", (None, None))
        super().__init__(**kwargs)
        self.add_widget(self.words)

    def high_for(self, width: float) -> float:
        """Return the height of the words at a width, in pixels; 0 without words."""
        if not self.text:
            return 0.0
        size, font = font_px(CAP_LEAST_MM), font_for(self.text)
        lines = lines_needed(self.text, width - px(LEFT_MM), size, False, font)
        line = text_size_px("Ag", size, False, font)[1]
        return float(min(lines, MOST_LINES) * line + px(ABOVE_MM))

    def draw(self) -> None:
        """Draw the shape and the words beside it."""
        self.words.text = self.text
        if self.text:
            centre = (self.x + px(SHAPE_MM / 2), self.center_y)
            status_shape(Status(self.status), centre, px(SHAPE_MM))
        self.words.pos = (self.x + px(LEFT_MM), self.y)
        self.words.size = (max(self.width - px(LEFT_MM), 0), self.height)
