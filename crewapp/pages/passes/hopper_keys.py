"""Keys for one hopper load by one tap: full or half, and how the sand feels."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.palette import KEY_MM, ButtonKind
from crewapp.words.translate import say, translate_later

MOISTURES = (translate_later("dry"), translate_later("damp"), translate_later("wet"))
FULL, HALF = 10, 5


class HopperKeys(KeyGrid):
    """Keys for full hoppers, and half ones below; event ``on_load(tenths, moisture)``.

    How the sand feels is part of each key, so that no state of it is taken for
    granted.
    """

    def __init__(self, has_halves: bool = True, **kwargs: Any) -> None:
        self.register_event_type("on_load")
        super().__init__(across=3, high_mm=KEY_MM, **kwargs)
        loads = [(FULL, translate_later("Full, {moisture}"))]
        loads += [(HALF, translate_later("Half, {moisture}"))] if has_halves else []
        self.show_keys([self._key(*load, moisture) for load in loads for moisture in MOISTURES])

    def on_load(self, tenths: int, moisture: str) -> None:
        """Event: one load went out."""

    def _key(self, tenths: int, text: str, moisture: str) -> Touchable:
        key = Touchable(
            text=say(text, moisture=say(moisture)),
            kind=ButtonKind.PLAIN,
            cap_mm=4.2,
            is_logging=True,
        )
        key.least_side_mm = KEY_MM
        key.bind(on_release=lambda _: self.dispatch("on_load", tenths, moisture))
        return key
