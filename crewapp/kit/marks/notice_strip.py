"""Strip with a notice that holds as long as the book is open and takes no answer."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.look.paint import DrawnWidget, edge, status_shape
from crewapp.kit.look.palette import CAP_LEAST_MM, INK, RULE_MM, TOUCH_MM, Status
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel

SHAPE_MM, LEFT_MM, TITLE_MM = 8.0, 12.0, 5.0


class NoticeStrip(DrawnWidget):
    """``title`` bold, ``text`` under it, ``status`` as a shape.

    As high as the undo strip, whose place it may take.
    """

    title = StringProperty("")
    text = StringProperty("")
    status = StringProperty(Status.CHECK)
    redraw_on = ("title", "text", "status")

    def __init__(self, **kwargs: Any) -> None:
        self.title_words = TextLabel(bold=True)
        self.text_words = TextLabel(cap_mm=CAP_LEAST_MM, lines=2)
        super().__init__(size_hint_y=None, height=px(TOUCH_MM + 1.5), **kwargs)
        self.add_widget(self.title_words)
        self.add_widget(self.text_words)

    def draw(self) -> None:
        """Rule the strip off; the shape at its left, the words beside it."""
        edge([(self.x, self.top), (self.right, self.top)], INK, RULE_MM, False)
        status_shape(Status(self.status), (self.x + px(SHAPE_MM / 2), self.center_y), px(SHAPE_MM))
        left, room = self.x + px(LEFT_MM), self.width - px(LEFT_MM)
        high = self.height - px(0.4)
        title = min(high * 0.35, px(TITLE_MM))
        self.title_words.text, self.text_words.text = self.title, self.text
        self.text_words.pos, self.text_words.size = (left, self.y), (room, high - title)
        self.title_words.pos = (left, self.y + high - title)
        self.title_words.size = (room, title)
