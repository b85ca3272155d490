"""A pad for what stands on a ticket: digits first, the letters a key away."""

from __future__ import annotations

from typing import Any

from kivy.properties import BooleanProperty

from crewapp.kit.input.key_grammar import LETTERS
from crewapp.kit.input.keypad_value import KeypadState
from crewapp.kit.keys.key_layout import Places, letter_places
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import KEY_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import to_mm

DASH, TURN = "-", "abc"
LEAST_MM = 3.5


class LetterKeypad(Keypad):
    """A keypad for a name: ``is_lettering`` shows the letters in place of the digits.

    Letters that names of this kind begin with are one key, until something is typed.
    """

    is_lettering = BooleanProperty(False)
    redraw_on: tuple[str, ...] = (*Keypad.redraw_on, "is_lettering")

    def __init__(self, keypad: KeypadState, **kwargs: Any) -> None:
        super().__init__(keypad, **kwargs)
        self.value_line.value_words.least_mm = LEAST_MM  # a long name stays seen whole

    def _make_keys(self) -> None:
        """Make the pad's keys, and one that turns between digits and letters."""
        super()._make_keys()
        self._add(TURN, Touchable(text="", kind=ButtonKind.PLAIN, cap_mm=5.0))

    def hit(self, name: str) -> None:
        """Take one key; the one that turns writes nothing."""
        if name == TURN:
            self.is_lettering = not self.is_lettering
            return
        super().hit(name)

    def middle_keys(self) -> tuple[str, ...]:
        """Name the keys beside the digits: to the letters, and how such names begin."""
        prefix = self.keypad.spec.grammar.prefix
        return (TURN, prefix) if prefix and not self.keypad.typed else (TURN,)

    def arrange(self) -> None:
        """Show the digits or the letters."""
        super().arrange()
        self.touches[TURN].text = "123" if self.is_lettering else "ABC"
        seen = {*LETTERS} if self.is_lettering else {*"0123456789", *self.middle_keys()}
        seen |= {DASH, TURN}
        self.touches[DASH].least_side_mm = TOUCH_MM if self.is_lettering else KEY_MM
        for name in (*self.keypad.spec.grammar.writing_keys(), TURN):
            key = self.touches[name]
            if (name in seen) != (key.parent is self):
                (self.add_widget if name in seen else self.remove_widget)(key)

    def draw(self) -> None:
        """Draw the pad; among the letters a reason stands small, so that the name stays seen."""
        super().draw()
        if self.is_lettering and self.width >= self.height:
            self.value_line.reason, self.value_line.echo = "", self.keypad.refused or self._echo()

    def places(self) -> Places:
        """Return where all goes, in mm from the upper left."""
        if not self.is_lettering:
            return super().places()
        return letter_places(to_mm(self.width), to_mm(self.height), (*LETTERS, DASH), TURN)
