"""Strip with the entry inked last, and one tap to take it back, until the next entry."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import DrawnWidget, edge
from crewapp.kit.look.palette import CAP_LABEL_MM, INK, RULE_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say


class UndoStrip(DrawnWidget):
    """``text`` says what was inked; event ``on_undo``. Empty text: no key.

    There is no timer: it stays until the screen gives it other words.
    """

    text = StringProperty("")
    redraw_on = ("text",)

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_undo")
        self.words = TextLabel(lines=2, cap_mm=CAP_LABEL_MM)
        self.key = Touchable(text=say("Undo"), kind=ButtonKind.PLAIN)
        self.key.bind(on_release=lambda _: self.dispatch("on_undo"))
        super().__init__(size_hint_y=None, height=px(TOUCH_MM + 1.5), **kwargs)
        self.add_widget(self.words)
        self.add_widget(self.key)

    def on_undo(self) -> None:
        """Event: take the last entry back."""

    def arrange(self) -> None:
        """Show the key only while there is something to take back."""
        is_shown = bool(self.text)
        if is_shown != (self.key.parent is self):
            (self.add_widget if is_shown else self.remove_widget)(self.key)

    def draw(self) -> None:
        """Rule the strip off and place the words and the key."""
        edge([(self.x, self.top), (self.right, self.top)], INK, RULE_MM, False)
        wide = px(28.0)
        self.words.text = self.text or say("Nothing to take back.")
        self.words.pos, self.words.size = self.pos, (self.width - wide - px(3.0), px(TOUCH_MM))
        self.key.size = (wide, px(TOUCH_MM))
        self.key.pos = (self.right - wide, self.y)
