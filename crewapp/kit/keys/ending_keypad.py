"""A number pad that ends with a choice: each of its enter keys says one thing more."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.input.keypad_value import KeypadState
from crewapp.kit.keys.key_layout import Places
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import GAP_MM, KEY_MM, ButtonKind

_MARK = "="


class EndingKeypad(Keypad):
    """A keypad whose Enter is a row of keys, such as dry, damp and wet.

    ``endings`` are (name, words); ``ending`` is the name of the one tapped,
    known when ``on_enter`` comes. ``asks`` says what they answer.
    """

    ending = StringProperty("")

    def __init__(
        self, keypad: KeypadState, endings: Sequence[tuple[str, str]], asks: str, **kwargs: Any
    ) -> None:
        self.endings = tuple(endings)
        self.asks = asks
        super().__init__(keypad, **kwargs)

    def _make_keys(self) -> None:
        """Make the pad's keys, and one that ends for each choice."""
        super()._make_keys()
        self.remove_widget(self.touches.pop("enter"))
        for name, words in self.endings:
            key = Touchable(text=words, kind=ButtonKind.PRIMARY, cap_mm=5.0, is_logging=True)
            key.least_side_mm = KEY_MM
            key.words.lines = 1
            self._add(f"{_MARK}{name}", key)

    def middle_keys(self) -> tuple[str, ...]:
        """Name the keys that end; they give way to a question."""
        return tuple(f"{_MARK}{name}" for name, _ in self.endings)

    def hit(self, name: str) -> None:
        """Take one key; one that ends is remembered and enters."""
        if name.startswith(_MARK):
            self.ending = name[len(_MARK) :]
            name = "enter"
        super().hit(name)

    def draw(self) -> None:
        """Draw the pad and say what the keys that end answer."""
        super().draw()
        if self.keypad.question is None:
            self.hint.text = self.asks

    def _put(self, places: Places) -> None:
        """Give the keys that end the room of Enter, or the middle and say why there."""
        left, down, wide, high = places.pop("enter")
        keys = [name for name in self.middle_keys() if name in places]
        if high > wide:
            each = (high - GAP_MM * (len(keys) - 1)) / max(len(keys), 1)
            for number, name in enumerate(keys):
                places[name] = (left, down + number * (each + GAP_MM), wide, each)
        elif keys:
            places |= _row(keys, places)
            places["hint"] = (left, down, wide, high)
        super()._put(places)


def _row(keys: Sequence[str], places: Places) -> Places:
    """Return the keys in one row across the middle."""
    left = places[keys[0]][0]
    down = max(places[name][1] + places[name][3] for name in keys) - KEY_MM
    value = places["value"]
    right = value[0] + value[2]
    each = (right - left - GAP_MM * (len(keys) - 1)) / len(keys)
    return {
        name: (left + number * (each + GAP_MM), down, each, KEY_MM)
        for number, name in enumerate(keys)
    }
