"""The verdict on a reading: a shape, a word and a colour, together always."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty

from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset, status_shape
from crewapp.kit.look.palette import EDGE_LINE_MM, INK, PAGE, STATUS, Status
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say


class StatusMark(DrawnWidget):
    """``status`` (palette.Status), and ``text`` to say more than its word.

    The shape stands in a white cell at the left, the word in the filled one.
    """

    status = StringProperty(Status.NOT_MEASURED)
    text = StringProperty("")
    cap_mm = NumericProperty(4.2)
    redraw_on = ("status", "text", "cap_mm")

    def __init__(self, **kwargs: Any) -> None:
        high_mm = kwargs.pop("high_mm", 12.0)
        self.words = TextLabel(bold=True, lines=2)
        super().__init__(size_hint_y=None, height=px(high_mm), **kwargs)
        self.add_widget(self.words)

    def draw(self) -> None:
        """Draw both cells, the shape, and the word."""
        status = Status(self.status)
        look = STATUS[status]
        x, y, width, height = inset(self, EDGE_LINE_MM / 2)
        cell = min(height, width * 0.4)
        fill(box(x, y, width, height), PAGE)
        fill(box(x + cell, y, width - cell, height), look.fill)
        self._edge(x, y, width, height, status)
        size = min(cell, height) * 0.68
        status_shape(status, (x + cell / 2, y + height / 2), size)
        word = say(look.word)
        self.words.text = f"{word}  {self.text}" if self.text else word
        self.words.tone, self.words.cap_mm = look.text, self.cap_mm
        pad = px(1.8)
        self.words.pos = (x + cell + pad, y)
        self.words.size = (width - cell - 2 * pad, height)

    def _edge(self, x: float, y: float, width: float, height: float, status: Status) -> None:
        """Draw the edge: broken while nothing is measured."""
        corners = box(x, y, width, height)
        if status is not Status.NOT_MEASURED:
            edge(corners, INK, EDGE_LINE_MM)
            return
        for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
            _dashes(start, end)


def _dashes(start: tuple[float, float], end: tuple[float, float]) -> None:
    """Draw a dashed edge 1 mm wide: 3 mm drawn, 2 mm blank."""
    length = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
    count = max(int(length / px(5.0)), 1)
    for number in range(count):
        first = (number + 0.2) / count
        last = (number + 0.8) / count
        points = [
            (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)
            for part in (first, last)
        ]
        edge(points, INK, 0.8, False)
