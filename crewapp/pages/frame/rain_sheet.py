"""The rain lock over the whole window: four keys that wet drops can't work."""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import StringProperty

from crewapp.kit.input.rain_lock import ARMED_MS, OPPOSITE, RainLock
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import EDGE_MM, GAP_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.cover_sheet import CoverSheet
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

KEY_MM, WIDE_MM = 40.0, 60.0
PLACES = {"pass": (0, 1), "undo": (1, 1), "delay": (0, 0), "unlock": (1, 0)}


class RainSheet(CoverSheet):
    """Event ``on_do(name)``: a key and the one across from it were tapped, one after the other.

    ``inked`` says what was inked last.
    """

    inked = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_do")
        super().__init__(**kwargs)
        self.lock = RainLock()
        self.words = TextLabel(lines=4, halign="center", cap_mm=4.0)
        self.add_widget(self.words)
        self.keys: dict[str, TapKey] = {}
        for name in PLACES:
            key = TapKey(size_hint=(None, None), cap_mm=5.0)
            key.bind(on_release=lambda _, tapped=name: self._tap(tapped))
            self.keys[name] = key
            self.add_widget(key)
        self._calm = Clock.create_trigger(lambda _: self._settle(RainLock()), ARMED_MS / 1000)
        self.bind(pos=self._place, size=self._place, inked=lambda *_: self._show())
        self._place()
        self._show()

    def on_do(self, name: str) -> None:
        """Event: something is to be done."""

    def _tap(self, name: str) -> None:
        lock, done = self.lock.tap(name, int(Clock.get_time() * 1000))
        self._settle(lock)
        if lock.armed:
            self._calm.cancel()
            self._calm()
        if done:
            self.dispatch("on_do", done)

    def _settle(self, lock: RainLock) -> None:
        self.lock = lock
        self._show()

    def _show(self) -> None:
        """Show which key is armed, and where to tap next."""
        texts = {
            "pass": say("Pass"),
            "undo": say("Undo"),
            "delay": say("Delay"),
            "unlock": say("Unlock"),
        }
        for name, key in self.keys.items():
            is_next = bool(self.lock.armed) and name == OPPOSITE[self.lock.armed]
            key.text = say("now here") if is_next else texts[name]
            is_black = name == self.lock.armed
            key.kind = ButtonKind.PRIMARY if is_black or is_next else ButtonKind.PLAIN
            key.disabled = name == "undo" and not self.inked and not is_next
        hint = say("Locked against rain: tap a key, then the one across from it.")
        self.words.text = f"{self.inked}\n{hint}" if self.inked else hint

    def _place(self, *_: object) -> None:
        """Put the keys into the corners and the words between them."""
        margin, high = px(EDGE_MM), px(KEY_MM)
        self.paint_page()
        wide = min(px(WIDE_MM), (self.width - 2 * margin - px(GAP_MM)) / 2)
        for name, (right, top) in PLACES.items():
            self.keys[name].size = (wide, high)
            x = self.right - margin - wide if right else self.x + margin
            y = self.top - margin - high if top else self.y + margin
            self.keys[name].pos = (x, y)
        self.words.size_hint = (None, None)
        between = self.height - 2 * (margin + high + px(GAP_MM))
        room = max(self.width - 2 * margin, px(10))
        self.words.pos = (self.x + margin, self.y + margin + high + px(GAP_MM))
        self.words.size = (room, max(between, px(8.0)))
