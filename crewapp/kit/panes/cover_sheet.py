"""A sheet over the whole glass: what lies under it is neither seen nor hit."""

from __future__ import annotations

from typing import Any

from kivy.uix.floatlayout import FloatLayout

from crewapp.kit.look.paint import box, fill
from crewapp.kit.look.palette import PAGE


class CoverSheet(FloatLayout):
    """Hides what it lies over and takes every touch; ``paint_page`` before placing parts."""

    def paint_page(self) -> None:
        """Paint the sheet as large as it is now."""
        self.canvas.before.clear()
        with self.canvas.before:
            fill(box(*self.pos, *self.size), PAGE)

    def on_touch_down(self, touch: Any) -> bool:
        """Take every touch: what lies under the sheet must not be hit by chance."""
        super().on_touch_down(touch)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        """Take every touch that moves."""
        super().on_touch_move(touch)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        """Take every touch that ends."""
        super().on_touch_up(touch)
        return True
