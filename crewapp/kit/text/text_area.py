"""A place for a note: the one part that uses the system's keyboard."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty
from kivy.uix.textinput import TextInput

from crewapp.kit.look.paint import box, edge, fill, inset
from crewapp.kit.look.palette import CAP_LABEL_MM, INK, PAGE, RULE
from crewapp.kit.look.theme import font_for, font_px, px, rgba

LONGEST_NOTE = 2_000


class TextArea(TextInput):
    """A note of some lines; ``text`` is bindable, as in Kivy. At most 2,000 signs."""

    longest = NumericProperty(LONGEST_NOTE)
    least_side_mm = 15.0

    def __init__(self, **kwargs: Any) -> None:
        high_mm = kwargs.pop("high_mm", 24.0)
        if "size_hint_y" not in kwargs:
            kwargs.update(size_hint_y=None, height=px(high_mm))
        super().__init__(
            font_size=font_px(CAP_LABEL_MM),
            foreground_color=rgba(INK),
            background_color=(0, 0, 0, 0),
            background_normal="",
            background_active="",
            hint_text_color=rgba(RULE),
            cursor_color=rgba(INK),
            cursor_width=px(0.8),
            padding=[px(2.5), px(2.5)],
            **kwargs,
        )
        self.bind(pos=self._ground, size=self._ground, focus=self._ground, text=self._font)
        self._ground()

    def _font(self, *_: object) -> None:
        """Take a font that has what was written."""
        self.font_name = font_for(self.text)

    def insert_text(self, substring: str, from_undo: bool = False) -> Any:
        """Take in no more than fits; what is there already stays."""
        room = max(int(self.longest) - len(self.text), 0)
        return super().insert_text(substring[:room], from_undo=from_undo)

    def _ground(self, *_: object) -> None:
        """Draw the page and the edge under the text: heavy while writing."""
        self.canvas.before.clear()
        with self.canvas.before:
            weight = 0.9 if self.focus else 0.5
            outline = box(*inset(self, weight / 2))
            fill(outline, PAGE)
            edge(outline, INK, weight)
            # Kivy's own rule for the text relies on the last colour set here.
            edge([(0, 0), (0, 0)], INK, 0.1, False)
