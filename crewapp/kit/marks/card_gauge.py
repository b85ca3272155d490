"""A bank card laid on the glass tells how large a millimetre is there."""

from __future__ import annotations

from typing import Any

from kivy.metrics import Metrics
from kivy.properties import NumericProperty

from crewapp.device.ports import CARD_WIDE_MM, true_dpi
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.paint import DrawnWidget, box, edge, fill
from crewapp.kit.look.palette import CAP_LABEL_MM, FEINT, GAP_MM, INK, KEY_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

CARD_HIGH_MM = 53.98  # ISO/IEC 7810 ID-1, from memory, as the width in device.py
STEP_MM = 0.5
LEAST_MM, MOST_MM = 60.0, 96.0


class CardGauge(DrawnWidget):
    """An outline to match to a bank card; event ``on_measured(dpi)`` when it does.

    The keys make the outline wider and narrower by half a millimetre.
    Needs 98 by 110 mm.
    """

    drawn_mm = NumericProperty(CARD_WIDE_MM)
    redraw_on = ("drawn_mm",)

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_measured")
        self.words = TextLabel(
            text=say("Lay a bank card on the outline and make both the same width."),
            cap_mm=CAP_LABEL_MM,
            lines=3,
        )
        self.keys = [TapKey(text=text, cap_mm=6.0) for text in ("\u2212", "+")]
        for key, by in zip(self.keys, (-STEP_MM, STEP_MM), strict=True):
            key.bind(on_release=lambda _, step=by: self.step(step))
        self.done = MainKey(text=say("It matches"), kind=ButtonKind.PRIMARY, is_logging=False)
        self.done.bind(on_release=self._measured)
        super().__init__(**kwargs)
        for part in (self.words, *self.keys, self.done):
            self.add_widget(part)

    def on_measured(self, dpi: float) -> None:
        """Event: the outline matches; this is the screen's true resolution."""

    def _measured(self, *_: object) -> None:
        self.dispatch("on_measured", true_dpi(Metrics.dpi, self.drawn_mm))

    def step(self, by_mm: float) -> None:
        """Make the outline wider, or narrower, within what a screen may claim."""
        self.drawn_mm = min(max(self.drawn_mm + by_mm, LEAST_MM), MOST_MM)

    def draw(self) -> None:
        """Draw the words, the card, and the keys under it."""
        self.words.size = (self.width, px(16.0))
        self.words.pos = (self.x, self.top - px(16.0))
        wide = px(self.drawn_mm)
        high = wide * CARD_HIGH_MM / CARD_WIDE_MM
        left, low = self.x, self.top - px(18.0) - high
        fill(box(left, low, wide, high), FEINT)
        edge(box(left, low, wide, high), INK, 0.4)
        side, gap = px(TOUCH_MM), px(GAP_MM)
        foot = self.y
        for place, key in enumerate(self.keys):
            key.size = (side, px(KEY_MM))
            key.pos = (self.x + place * (side + gap), foot)
        self.done.size = (min(px(60.0), self.width - 2 * (side + gap)), px(KEY_MM))
        self.done.pos = (self.x + 2 * (side + gap), foot)
