"""A notice across the page: a state's shape, one sentence, and one answer."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset, status_shape
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    CAP_LEAST_MM,
    EDGE_LINE_MM,
    GAP_MM,
    INK,
    PAGE,
    STATUS,
    TOUCH_MM,
    ButtonKind,
    Status,
)
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed

LEAST_MM, LEFT_MM, NARROW_MM = 21.0, 16.0, 90.0
TITLE_MM = 3.6


class Banner(DrawnWidget):
    """``title`` bold, ``text`` under it, ``answer`` on a key; event ``on_answered``.

    ``status`` gives the shape and the bar at the left. Without ``answer`` there
    is no key; it stands at the left, where the head of a page has its title and no
    key of its own. The height follows the words: 21 mm, or more on a narrow page.
    """

    status = StringProperty(Status.CHECK)
    title = StringProperty("")
    text = StringProperty("")
    answer = StringProperty("")
    redraw_on = ("status", "title", "text", "answer")
    lies_over = True

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_answered")
        self.title_words = TextLabel(bold=True, cap_mm=TITLE_MM, lines=8)
        self.text_words = TextLabel(lines=8, cap_mm=CAP_LEAST_MM)
        self.key = Touchable(kind=ButtonKind.PLAIN)
        self.key.bind(on_release=lambda _: self.dispatch("on_answered"))
        super().__init__(size_hint_y=None, height=px(LEAST_MM), **kwargs)
        self.add_widget(self.title_words)
        self.add_widget(self.text_words)

    def on_answered(self) -> None:
        """Event: the answer was tapped."""

    def arrange(self) -> None:
        """Show the key only where there is an answer to give."""
        if bool(self.answer) != (self.key.parent is self):
            (self.add_widget if self.answer else self.remove_widget)(self.key)
        self.key.text = self.answer
        title, text = self._heights()
        below = px(TOUCH_MM + 2 * GAP_MM) if self._is_narrow() else 0.0
        self.height = max(title + text + px(2.0) + below, px(LEAST_MM))

    def _is_narrow(self) -> bool:
        """Whether the key goes under the words."""
        return bool(self.answer) and self.width < px(NARROW_MM)

    def _key_wide(self) -> float:
        if not self.answer:
            return 0.0
        size = font_px(CAP_LABEL_MM + 0.5)
        wide = text_size_px(self.answer, size, True, font_for(self.answer))[0] + px(6.0)
        return max(min(wide, self.width * 0.4), px(TOUCH_MM))

    def _room(self) -> float:
        """Return the width that the words have."""
        is_beside = bool(self.answer) and not self._is_narrow()
        beside = self._key_wide() + px(GAP_MM) if is_beside else 0.0
        return float(max(self.width - px(LEFT_MM) - px(2.5) - beside, px(10.0)))

    def _heights(self) -> tuple[float, float]:
        """Return how high the title and the text are at full size."""
        found = []
        for text, cap_mm, bold in ((self.title, TITLE_MM, True), (self.text, CAP_LEAST_MM, False)):
            size, font = font_px(cap_mm), font_for(text)
            lines = lines_needed(text, self._room(), size, bold, font) if text else 0
            line = text_size_px("Ag", size, bold, font)[1]
            found.append(min(lines, 8) * (line + 1.0))
        return found[0], found[1]

    def draw(self) -> None:
        """Draw the bar, the shape and the words."""
        look = STATUS[Status(self.status)]
        x, y, width, height = inset(self, EDGE_LINE_MM / 2)
        fill(box(x, y, width, height), PAGE)
        fill(box(x, y, px(3.0), height), look.fill)
        edge(box(x, y, width, height), INK, EDGE_LINE_MM)
        size, key_wide, room = px(9.0), self._key_wide(), self._room()
        is_beside = bool(self.answer) and not self._is_narrow()
        after = x + (key_wide + px(GAP_MM) if is_beside else 0.0)
        status_shape(Status(self.status), (after + px(5.0) + size / 2, y + height / 2), size)
        left = after + px(LEFT_MM)
        title_high, text_high = self._heights()
        self.title_words.text, self.text_words.text = self.title, self.text
        below = px(TOUCH_MM + GAP_MM) if self._is_narrow() else 0.0
        foot = y + below + (height - below - title_high - text_high) / 2
        self.title_words.pos, self.title_words.size = (left, foot + text_high), (room, title_high)
        self.text_words.pos, self.text_words.size = (left, foot), (room, text_high)
        self.key.size = (key_wide, px(TOUCH_MM))
        up = px(GAP_MM) if self._is_narrow() else (height - px(TOUCH_MM)) / 2
        self.key.pos = (x + px(5.0), y + up)

    def on_touch_down(self, touch: Any) -> bool:
        """Take every touch on it: what lies under it must not be hit by chance."""
        return bool(super().on_touch_down(touch) or self.collide_point(*touch.pos))
