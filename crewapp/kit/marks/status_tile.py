"""A tile that says how one thing stands: its state's shape, its name, a few words."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import cut_box, edge, fill, inset, status_shape
from crewapp.kit.look.palette import CAP_LEAST_MM, EDGE_LINE_MM, INK, PAGE, RULE, Status
from crewapp.kit.look.theme import font_for, font_px, px
from crewapp.kit.text.label import TextLabel, lines_needed

SHAPE_MM, PAD_MM, NAME_MM = 7.0, 2.0, 6.0
DENSE_PAD_MM, DENSE_NAME_MM, DENSE_MM = 1.0, 4.9, 15.6
"""Where two lines have to do with less: the least height that holds the name over them."""


class StatusTile(Touchable):
    """``name`` bold, ``detail`` in up to two lines, ``status`` as a shape; leads somewhere.

    ``is_dense`` sets name and detail closer together.
    """

    name = StringProperty("")
    detail = StringProperty("")
    status = StringProperty(Status.NOT_MEASURED)
    is_dense = BooleanProperty(False)
    redraw_on = (*Touchable.redraw_on, "name", "detail", "status", "is_dense")

    def __init__(self, **kwargs: Any) -> None:
        self.name_words = TextLabel(bold=True, cap_mm=3.5)
        self.detail_words = TextLabel(cap_mm=CAP_LEAST_MM, lines=2)
        super().__init__(**kwargs)
        self.add_widget(self.name_words)
        self.add_widget(self.detail_words)

    def _room(self) -> float:
        return self.width - px(SHAPE_MM) - 2.5 * px(PAD_MM)

    def needs_two_lines(self) -> bool:
        """Whether the words under the name are too long for one line here."""
        size, font = font_px(CAP_LEAST_MM), font_for(self.detail)
        return lines_needed(self.detail, self._room(), size, False, font) > 1

    def draw(self) -> None:
        """Draw the tile; pressed, it is inside out but for its shape's own ground."""
        is_down = self.state == "down"
        ground, tone = (INK, PAGE) if is_down else (PAGE, INK)
        outline = cut_box(*inset(self, EDGE_LINE_MM / 2), 0)
        fill(outline, ground)
        edge(outline, RULE, EDGE_LINE_MM / 2)
        size, pad = px(SHAPE_MM), px(PAD_MM)
        if is_down:
            fill(cut_box(self.x + pad / 2, self.y, size + pad, self.height, 0), PAGE)
        status_shape(Status(self.status), (self.x + pad + size / 2, self.center_y), size)
        left = self.x + size + 2 * pad
        spare = px(DENSE_PAD_MM) if self.is_dense else pad
        room, low = self._room(), self.y + spare / 2
        name_high = px(DENSE_NAME_MM if self.is_dense else NAME_MM)
        detail_high = self.height - spare - name_high
        self.detail_words.pos, self.detail_words.size = (left, low), (room, detail_high)
        self.name_words.pos = (left, low + detail_high)
        self.name_words.size = (room, name_high)
        for words, text in ((self.name_words, self.name), (self.detail_words, self.detail)):
            words.text, words.tone = text, tone
