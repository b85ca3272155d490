"""A figure as it will be stored: its name, the figure, its unit, an echo, a reason."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty

from crewapp.kit.look.paint import DrawnWidget, edge
from crewapp.kit.look.palette import CAP_FIGURE_MM, HEAVY_MM, INK, OXIDE
from crewapp.kit.look.theme import font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel

NAME_MM, ECHO_MM, REASON_MM = 5.5, 5.9, 11.0


class ValueLine(DrawnWidget):
    """``name`` above, ``value`` large on a heavy rule with its ``unit``, ``echo`` below.

    ``reason`` takes the echo's place, in dark red, when a key was refused;
    ``is_typing`` shows the caret.
    """

    name = StringProperty("")
    value = StringProperty("")
    unit = StringProperty("")
    echo = StringProperty("")
    reason = StringProperty("")
    is_typing = BooleanProperty(False)
    cap_mm = NumericProperty(CAP_FIGURE_MM)
    redraw_on = ("name", "value", "unit", "echo", "reason", "is_typing", "cap_mm")

    def __init__(self, **kwargs: Any) -> None:
        high_mm = kwargs.pop("high_mm", 27.0)
        self.name_words = TextLabel(bold=True)
        self.value_words = TextLabel(bold=True, cap_mm=CAP_FIGURE_MM, least_mm=6.0)
        self.unit_words = TextLabel(cap_mm=5.0)
        self.echo_words = TextLabel(lines=2)
        if "size_hint_y" not in kwargs:
            kwargs.update(size_hint_y=None, height=px(high_mm))
        super().__init__(**kwargs)
        for part in (self.name_words, self.value_words, self.unit_words, self.echo_words):
            self.add_widget(part)

    def draw(self) -> None:
        """Rule the line and put the words on it."""
        name_high, echo_high = px(0.0 if self._is_cramped() else NAME_MM), self._echo_high()
        rule_y = self.y + echo_high
        edge([(self.x, rule_y), (self.right, rule_y)], INK, HEAVY_MM, False)
        self.name_words.text = "" if self._is_cramped() else self.name
        self.name_words.pos = (self.x, self.top - name_high)
        self.name_words.size = (self.width, name_high)
        self.echo_words.text = self.reason or self.echo
        self.echo_words.tone = OXIDE if self.reason else INK
        self.echo_words.bold = bool(self.reason)
        self.echo_words.pos = self.pos
        self.echo_words.size = (self.width, echo_high - px(0.6))
        self._place_value(rule_y, self.top - name_high - rule_y)

    def _is_cramped(self) -> bool:
        """Whether what stands under the rule leaves no room for the name."""
        under = REASON_MM if self.reason else ECHO_MM
        return bool(self.value) and self.height < px(NAME_MM + 6.0 * 1.5 + under)

    def _echo_high(self) -> float:
        """Return the room under the rule: two lines for a reason, one for an echo."""
        return px(REASON_MM if self.reason else ECHO_MM)

    def _place_value(self, low: float, high: float) -> None:
        """Put the figure, the caret and the unit beside each other."""
        unit_wide = 0.0
        if self.unit:
            size = font_px(5.0)
            unit_wide = text_size_px(self.unit, size, False, "Roboto")[0] + px(1.0)
        self.value_words.text, self.value_words.cap_mm = self.value, self.cap_mm
        room = self.width - unit_wide - px(2.0)
        self.value_words.pos, self.value_words.size = (self.x, low), (room, high)
        wide, size = 0.0, self.value_words.fit()
        if self.value:
            wide = text_size_px(self.value, size, True, self.value_words.font_name)[0]
        self.value_words.width = min(wide + px(0.5), room)
        at = self.x + self.value_words.width + px(1.0)
        if self.is_typing:
            caret = min(size * 0.95, high)
            middle = low + high / 2
            edge([(at, middle - caret / 2), (at, middle + caret / 2)], INK, 0.9, False)
            at += px(1.5)
        self.unit_words.text = self.unit
        self.unit_words.pos = (at, low)
        self.unit_words.size = (unit_wide, high - px(1.0))
