"""Row of a list: its height is fixed, and it draws itself at once."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, ObjectProperty, StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import box, edge, fill, status_shape
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    CAP_LEAST_MM,
    FEINT,
    GAP_MM,
    INK,
    PAGE,
    RULE,
    RULE_MM,
    Status,
)
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed, plain_height_mm

FIGURE_CAP_MM = 4.4


class ListRow(Touchable):
    """Row of a list: ``title`` and ``detail`` left, ``figure`` right, a state's shape.

    ``status`` is "" for a row without a state. ``is_struck`` crosses the row
    out and leaves it readable. ``pick`` is called with ``key`` on a tap.
    """

    key = StringProperty("")
    title = StringProperty("")
    detail = StringProperty("")
    figure = StringProperty("")
    status = StringProperty("")
    is_struck = BooleanProperty(False)
    pick = ObjectProperty(None, allownone=True)
    redraw_on = (*Touchable.redraw_on, "title", "detail", "figure", "status", "is_struck")

    def __init__(self, **kwargs: Any) -> None:
        self.title_words = TextLabel(bold=True, cap_mm=4.0, lines=2)
        self.detail_words = TextLabel(cap_mm=3.2)
        self.figure_words = TextLabel(bold=True, cap_mm=FIGURE_CAP_MM, halign="right")
        super().__init__(**kwargs)
        for part in (self.title_words, self.detail_words, self.figure_words):
            self.add_widget(part)

    def on_release(self) -> None:
        """Tell the list which row was tapped."""
        if self.pick is not None:
            self.pick(self.key)

    def draw(self) -> None:
        """Draw the row on its ruled line."""
        is_down = self.state == "down"
        fill(box(*self.pos, *self.size), INK if is_down else PAGE)
        low = self.y - px(GAP_MM / 2)
        edge([(self.x, low), (self.right, low)], RULE, RULE_MM, False)
        left = self._draw_state()
        right = self.right - px(2.0)
        size = font_px(FIGURE_CAP_MM)
        wide = text_size_px(self.figure, size, True, font_for(self.figure))[0] + px(1.0)
        figure_wide = min(wide, (right - left) * 0.5) if self.figure else 0.0
        self.figure_words.pos = (right - figure_wide, self.y)
        self.figure_words.size = (figure_wide, self.height)
        room = right - figure_wide - left - (px(2.0) if self.figure else 0)
        font = font_for(self.title)
        lines = lines_needed(self.title, room, font_px(CAP_LABEL_MM), True, font)
        share = (0.45 if lines == 1 else 0.34) if self.detail else 0.0
        self.detail_words.pos, self.detail_words.size = (left, self.y), (room, self.height * share)
        self.title_words.pos = (left, self.y + self.height * share)
        self.title_words.size = (room, self.height * (1 - share))
        line = px(plain_height_mm(CAP_LEAST_MM))
        for words in (self.title_words, self.detail_words):
            words.lines = max(int(words.height / line), 1)
        self._write(PAGE if is_down else INK)
        if self.is_struck:
            edge([(left, self.center_y), (right, self.center_y)], INK, 0.6, False)

    def _draw_state(self) -> float:
        """Draw the state's shape and return where the words begin."""
        if not self.status:
            return float(self.x + px(1.0))
        size = px(8.0)
        centre = (self.x + px(1.0) + size / 2, self.center_y)
        if self.state == "down":
            fill(box(self.x, self.y, size + px(2.0), self.height), FEINT)
        status_shape(Status(self.status), centre, size)
        return float(self.x + size + px(4.0))

    def _write(self, tone: str) -> None:
        """Put the words in, in a tone that the ground can carry."""
        words = (
            (self.title_words, self.title),
            (self.detail_words, self.detail),
            (self.figure_words, self.figure),
        )
        for label, text in words:
            label.text, label.tone = text, tone
