"""A notice across the page: a state's shape, one sentence, and one answer."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.palette import (
    CAP_LABEL_MM,
    EDGE_LINE_MM,
    INK,
    PAGE,
    STATUS,
    TOUCH_MM,
    Kind,
    Status,
)
from crewapp.theme import px
from crewapp.widgets.ink import Drawn, box, edge, fill, inset, status_shape
from crewapp.widgets.touchable import Touchable
from crewapp.widgets.words import Words


class Banner(Drawn):
    """``title`` bold, ``text`` under it, ``answer`` on a key; event ``on_answered``.

    ``status`` gives the shape and the bar at the left. Without ``answer`` there
    is no key. The height is fixed: 21 mm unless ``high_mm`` says otherwise.
    """

    status = StringProperty(Status.CHECK)
    title = StringProperty("")
    text = StringProperty("")
    answer = StringProperty("")
    redraw_on = ("status", "title", "text", "answer")

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_answered")
        high_mm = kwargs.pop("high_mm", 21.0)
        self.title_words = Words(bold=True, cap_mm=4.0)
        self.text_words = Words(lines=2, cap_mm=CAP_LABEL_MM)
        self.key = Touchable(kind=Kind.PLAIN)
        self.key.bind(on_release=lambda _: self.dispatch("on_answered"))
        super().__init__(size_hint_y=None, height=px(high_mm), **kwargs)
        self.add_widget(self.title_words)
        self.add_widget(self.text_words)

    def on_answered(self) -> None:
        """Event: the answer was tapped."""

    def arrange(self) -> None:
        """Show the key only where there is an answer to give."""
        if bool(self.answer) != (self.key.parent is self):
            (self.add_widget if self.answer else self.remove_widget)(self.key)
        self.key.text = self.answer

    def draw(self) -> None:
        """Draw the bar, the shape and the words."""
        look = STATUS[Status(self.status)]
        x, y, width, height = inset(self, EDGE_LINE_MM / 2)
        fill(box(x, y, width, height), PAGE)
        fill(box(x, y, px(3.0), height), look.fill)
        edge(box(x, y, width, height), INK, EDGE_LINE_MM)
        size = px(9.0)
        status_shape(Status(self.status), (x + px(5.0) + size / 2, y + height / 2), size)
        left = x + px(7.0) + size
        key_wide = min(px(34.0), width * 0.3) if self.answer else 0.0
        room = x + width - left - px(2.0) - (key_wide + px(3.0) if self.answer else 0)
        title_high = height * (0.4 if self.text else 1.0)
        self.title_words.text, self.text_words.text = self.title, self.text
        self.title_words.lines = 1 if self.text else 2
        self.title_words.pos = (left, y + height - title_high - px(0.5))
        self.title_words.size = (room, title_high)
        self.text_words.pos, self.text_words.size = (left, y + px(0.5)), (room, height * 0.6)
        self.key.size = (key_wide, px(TOUCH_MM))
        self.key.pos = (x + width - key_wide - px(3.0), y + (height - px(TOUCH_MM)) / 2)
