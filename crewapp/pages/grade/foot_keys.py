"""The keys at the foot of a part: the main one and those beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from kivy.uix.boxlayout import BoxLayout

from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.palette import CAP_LABEL_MM, GAP_MM, KEY_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px

ONE_ROW_FROM_MM = 130.0
Leads = Sequence[tuple[str, str, Callable[[], None]]]


class FootKeys(BoxLayout):
    """Row of ``main`` (or None) and other keys, in one line where there is width for it.

    ``keys`` are (name, words, what it does); ``touches`` finds them by name.
    """

    def __init__(self, main: MainKey | None, keys: Leads, **kwargs: Any) -> None:
        super().__init__(spacing=px(GAP_MM), size_hint_y=None, **kwargs)
        self.main = main
        self.row = BoxLayout(spacing=px(GAP_MM))
        self.touches: dict[str, TapKey] = {}
        for name, words, does in keys:
            kind = ButtonKind.QUIET if name == "back" else ButtonKind.PLAIN
            key = TapKey(text=words, kind=kind, cap_mm=CAP_LABEL_MM + 0.3, size_hint_y=1)
            key.bind(on_release=lambda _, does=does: does())
            self.touches[name] = key
            self.row.add_widget(key)
        if main is not None:
            main.size_hint = (1, 1)
            self.add_widget(main)
        self.add_widget(self.row)
        self.bind(width=self._turn)
        self._turn()

    def _turn(self, *_: object) -> None:
        """Put the main key beside the others, or over them."""
        if self.main is None:
            self.height = px(TOUCH_MM)
            return
        is_one = bool(self.width >= px(ONE_ROW_FROM_MM))
        self.orientation = "horizontal" if is_one else "vertical"
        self.height = px(KEY_MM if is_one else KEY_MM + GAP_MM + TOUCH_MM)
        count = max(len(self.touches), 1)
        self.row.size_hint = (count / (count + 1.3), 1) if is_one else (1, TOUCH_MM / KEY_MM)
        self.main.size_hint = (1.3 / (count + 1.3), 1) if is_one else (1, 1)
