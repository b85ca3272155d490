"""Keys in a grid that fills its room; those that find no place come by a page key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import GAP_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.words.translate import say

WISHED_WIDE_MM = 42.0  # wide keys while there is height for them


class KeyPages(Widget):
    """``show_keys`` puts keys in; they grow with the room, up to ``most_high_mm``.

    Where not all fit, the last place is a key that turns to the next ones, and
    from the last ones back to the first.
    """

    def __init__(
        self,
        least_wide_mm: float = 36.0,
        least_high_mm: float = TOUCH_MM,
        most_high_mm: float = 30.0,
        **kwargs: Any,
    ) -> None:
        self.least_wide_mm, self.least_high_mm = least_wide_mm, least_high_mm
        self.most_high_mm = most_high_mm
        self.keys: list[Any] = []
        self.first = 0
        self.more = Touchable(text=say("More"), kind=ButtonKind.QUIET)
        self.more.bind(on_release=lambda _: self.turn())
        super().__init__(**kwargs)
        self.bind(pos=self._place, size=self._place)

    def show_keys(self, keys: Sequence[Any], first: int = 0) -> None:
        """Show these keys in place of those before, turned to the page of the ``first``."""
        self.keys = list(keys)
        self.first = min(first, max(len(self.keys) - 1, 0))
        self._place()

    def turn(self) -> None:
        """Turn to the next keys."""
        self.first += self._a_page()
        if self.first >= len(self.keys):
            self.first = 0
        self._place()

    def _across(self) -> int:
        """Return how many keys stand in a row at the most."""
        gap = px(GAP_MM)
        return max(int((self.width + gap + 1) / (px(self.least_wide_mm) + gap)), 1)

    def _down(self) -> int:
        """Return how many rows there is room for."""
        gap = px(GAP_MM)
        return max(int((self.height + gap + 1) / (px(self.least_high_mm) + gap)), 1)

    def _a_page(self) -> int:
        """Return how many keys are seen at once."""
        places = self._across() * self._down()
        return places if len(self.keys) <= places else max(places - 1, 1)

    def _shown(self) -> list[Any]:
        """Return the keys that are seen, and the one that turns."""
        a_page = self._a_page()
        if a_page >= len(self.keys):
            self.first = 0
            return list(self.keys)
        self.first -= self.first % a_page
        pages = -(-len(self.keys) // a_page)
        page = self.first // a_page + 1
        self.more.note = say("{page} of {pages}", page=page, pages=pages)
        return [*self.keys[self.first : self.first + a_page], self.more]

    def _place(self, *_: object) -> None:
        """Lay the keys out, the first at the upper left."""
        shown = self._shown()
        if shown != self.children[::-1]:
            self.clear_widgets()
            for key in shown:
                key.size_hint = (None, None)
                self.add_widget(key)
        if not shown:
            return
        gap = px(GAP_MM)
        places = len(shown)
        if shown[-1] is self.more:  # the last page keeps the shape of the others
            places = self._a_page() + 1
        wished = max(int((self.width + gap + 1) / (px(WISHED_WIDE_MM) + gap)), 1)
        rows = -(-places // min(wished, self._across()))
        if rows > self._down():
            rows = -(-places // self._across())
        across = -(-places // rows)
        wide = (self.width - gap * (across - 1)) / across
        high = min((self.height - gap * (rows - 1)) / rows, px(self.most_high_mm))
        for number, key in enumerate(shown):
            row, column = divmod(number, across)
            key.size = (wide, high)
            key.pos = (self.x + column * (wide + gap), self.top - (row + 1) * high - row * gap)
