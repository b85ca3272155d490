"""Chips: figures to tap, side by side, none of them chosen beforehand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.input.chips import Chip
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import CHIP_HIGH_MM, GAP_MM, ButtonKind
from crewapp.kit.look.theme import font_px, px, text_size_px

CAP_MM = 4.6


class ChipRow(Widget):
    """Chips in as many rows as they need; event ``on_pick(value, text)``.

    ``show_chips`` puts others in. Its height follows from its width. ``cap_mm``
    sets smaller figures where a row has to be narrow.
    """

    def __init__(self, chips: Sequence[Chip] = (), **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        self.is_logging = kwargs.pop("is_logging", True)
        self.cap_mm = kwargs.pop("cap_mm", CAP_MM)
        super().__init__(size_hint_y=None, height=px(CHIP_HIGH_MM), **kwargs)
        self.bind(pos=self._place, width=self._place)
        self.show_chips(chips)

    def show_chips(self, chips: Sequence[Chip]) -> None:
        """Show these chips in place of those before."""
        self.clear_widgets()
        for chip in chips:
            touch = Touchable(
                text=chip.text,
                kind=ButtonKind.PLAIN,
                cap_mm=self.cap_mm,
                is_logging=self.is_logging,
            )
            touch.words.lines = 1
            touch.bind(on_release=lambda _, c=chip: self.dispatch("on_pick", c.value, c.text))
            self.add_widget(touch)
        self._place()

    def on_pick(self, value: int, text: str) -> None:
        """Event: a chip was tapped."""

    def high_for(self, width: float) -> float:
        """Return how high the row is at a width, in pixels."""
        rows = self._grid(width)[0]
        return rows * px(CHIP_HIGH_MM) + max(rows - 1, 0) * px(GAP_MM)

    def _grid(self, width: float) -> tuple[int, int]:
        """Return how many rows the chips take at a width, and how many stand in one."""
        touches = self.children
        if not touches:
            return 0, 1
        size = font_px(self.cap_mm)
        widest = max(text_size_px(t.text, size, True, "Roboto")[0] for t in touches) + px(4.2)
        least, gap = max(widest, px(CHIP_HIGH_MM)), px(GAP_MM)
        most = max(int((width + gap) / (least + gap)), 1)
        rows = -(-len(touches) // most)
        return rows, -(-len(touches) // rows)

    def _place(self, *_: object) -> None:
        """Lay the chips out, equal in width, the least at the upper left."""
        touches = self.children[::-1]
        if not touches:
            return
        across = self._grid(self.width)[1]
        gap, high = px(GAP_MM), px(CHIP_HIGH_MM)
        wide = (self.width - gap * (across - 1)) / across
        self.height = self.high_for(self.width)
        for place, touch in enumerate(touches):
            row, column = divmod(place, across)
            touch.size = (wide, high)
            touch.pos = (self.x + column * (wide + gap), self.top - (row + 1) * high - row * gap)
