"""A key that acts only when it is held: a drop or a sleeve can't hold it by chance."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, SmoothLine
from kivy.properties import NumericProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import edge, fill
from crewapp.kit.look.palette import EDGE_LINE_MM, HOLD_MS, KEY_MM, ButtonKind, look_of
from crewapp.kit.look.theme import px, rgba


class HoldKey(Touchable):
    """Held for 0.8 s it gives ``on_held``; let go earlier, nothing happens.

    ``progress`` runs from 0 to 1 and fills the ring at the left.
    """

    progress = NumericProperty(0.0)
    least_side_mm = KEY_MM
    redraw_on = (*Touchable.redraw_on, "progress")

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_held")
        kwargs.setdefault("kind", ButtonKind.SEND)
        kwargs.setdefault("high_mm", KEY_MM if "size_hint_y" not in kwargs else None)
        kwargs.setdefault("min_state_time", 0)  # let go is let go: no look that lingers
        self._ticking: Any = None
        self._since = 0.0
        super().__init__(**kwargs)
        self.fbind("state", self._on_state)

    def on_held(self) -> None:
        """Event: the key was held to the end."""

    def _on_state(self, _: object, state: str) -> None:
        """Start counting when pressed; forget it when let go."""
        if self._ticking is not None:
            self._ticking.cancel()
            self._ticking = None
        self.progress = 0.0
        if state == "down":
            self._since = Clock.get_time()
            self._ticking = Clock.schedule_interval(self._tick, 0)

    def _tick(self, _: float) -> bool:
        """Fill the ring; at the end act once and stop."""
        self.progress = min((Clock.get_time() - self._since) * 1000 / HOLD_MS, 1.0)
        if self.progress < 1.0:
            return True
        self._ticking = None
        self.dispatch("on_held")
        return False

    def on_touch_move(self, touch: Any) -> bool:
        """A finger that slides off has let go."""
        if touch.grab_current is self and not self.collide_point(*touch.pos):
            self.state = "normal"
        return bool(super().on_touch_move(touch))

    def draw(self) -> None:
        """Draw the key with its ring; the ground stays, so the ring can be seen."""
        look = look_of(ButtonKind(self.kind), False, self.disabled)
        outline = self.outline()
        fill(outline, look.ground)
        edge(outline, look.edge, EDGE_LINE_MM)
        self._place_words(look.text)
        size = min(self.height * 0.6, px(14.0))
        x, y = self.x + px(3.0) + size / 2, self.center_y
        for label in (self.words, self.second):
            label.x += size + px(2.0)
            label.width -= size + px(2.0)
        Color(*rgba(look.text))
        SmoothLine(circle=(x, y, size / 2), width=px(0.25))
        if self.progress > 0:
            turn = 360 * self.progress
            SmoothLine(circle=(x, y, size * 0.36, 0, turn), width=size * 0.12, cap="none")
