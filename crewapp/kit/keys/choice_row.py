"""A few words to choose one of: the chosen one is black, none is chosen beforehand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import TOUCH_MM, ButtonKind


class ChoiceRow(KeyGrid):
    """Row of ``choices`` (name, words); event ``on_pick(name)``; ``chosen`` is black."""

    chosen = StringProperty("")

    def __init__(self, choices: Sequence[tuple[str, str]] = (), **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        kwargs.setdefault("least_wide_mm", 24.0)
        kwargs.setdefault("high_mm", TOUCH_MM)
        super().__init__(**kwargs)
        self.show_choices(choices)
        self.bind(chosen=self._mark)

    def show_choices(self, choices: Sequence[tuple[str, str]]) -> None:
        """Show these words in place of those before."""
        self._names = [name for name, _ in choices]
        keys = []
        for name, words in choices:
            key = TapKey(text=words)
            key.bind(on_release=lambda _, picked=name: self.dispatch("on_pick", picked))
            keys.append(key)
        self.show_keys(keys)
        self._mark()

    def on_pick(self, name: str) -> None:
        """Event: a word was tapped."""

    def _mark(self, *_: object) -> None:
        for key, name in zip(self.keys, self._names, strict=True):
            key.kind = ButtonKind.PRIMARY if name == self.chosen else ButtonKind.PLAIN
