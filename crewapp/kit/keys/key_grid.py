"""Keys of one size side by side, in as many rows as the width asks for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.look.palette import GAP_MM, TOUCH_MM
from crewapp.kit.look.theme import px


class KeyGrid(Widget):
    """``show_keys`` puts keys in; each is ``high_mm`` high, at least ``least_wide_mm`` wide.

    Its height follows from its width. ``across`` fixes how many stand in a row.
    """

    def __init__(
        self,
        keys: Sequence[Any] = (),
        least_wide_mm: float = 30.0,
        high_mm: float = TOUCH_MM,
        across: int = 0,
        **kwargs: Any,
    ) -> None:
        self.least_wide_mm, self.high_mm, self.across = least_wide_mm, high_mm, across
        super().__init__(size_hint_y=None, height=px(high_mm), **kwargs)
        self.bind(pos=self._place, width=self._place)
        self.show_keys(keys)

    @property
    def keys(self) -> list[Any]:
        """The keys, in order."""
        return list(self.children[::-1])

    def show_keys(self, keys: Sequence[Any]) -> None:
        """Show these keys in place of those before."""
        if list(keys) != self.keys:
            self.clear_widgets()
            for key in keys:
                key.size_hint = (None, None)
                self.add_widget(key)
        self._place()

    def set_high(self, high_mm: float) -> None:
        """Make the keys so high from now on."""
        if high_mm != self.high_mm:
            self.high_mm = high_mm
            self._place()

    def _place(self, *_: object) -> None:
        """Lay the keys out, the first at the upper left."""
        keys = self.keys
        if not keys:
            self.height = 0.0
            return
        gap = px(GAP_MM)
        most = self.across or max(int((self.width + gap) / (px(self.least_wide_mm) + gap)), 1)
        rows = -(-len(keys) // most)
        across = self.across or -(-len(keys) // rows)
        wide = (self.width - gap * (across - 1)) / across
        high = px(self.high_mm)
        self.height = rows * high + (rows - 1) * gap
        for number, key in enumerate(keys):
            row, column = divmod(number, across)
            key.size = (wide, high)
            key.pos = (self.x + column * (wide + gap), self.top - (row + 1) * high - row * gap)
