"""The letters of a tablet's code over the whole window: a slip is refused as soon as it shows."""

from __future__ import annotations

from typing import Any

from crewapp.kit.input.code_pad import LETTERS, TypedCode
from crewapp.kit.keys.touchable import TapKey, Touchable, buzz
from crewapp.kit.look.palette import CAP_VALUE_MM, EDGE_MM, GAP_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.cover_sheet import CoverSheet
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

WIDE_ACROSS, HIGH_ACROSS, MOST_KEY_MM = 8, 5, 22.0
HEAD_MM, TOLD_MM, HINT_MM = 26.0, 12.0, 20.0
WIDE_KEY_MM, NARROW_KEY_MM = 30.0, 24.0


class CodeSheet(CoverSheet):
    """Keys of the 32 letters and figures; touches don't fall through it.

    Events: ``on_typed(letters)`` after every key; ``on_code(code)`` once all sixteen are typed
    and fit; ``on_leave``.
    """

    def __init__(self, typed: TypedCode, **kwargs: Any) -> None:
        for event in ("on_typed", "on_code", "on_leave"):
            self.register_event_type(event)
        super().__init__(**kwargs)
        self.typed = typed
        self.told = TextLabel(cap_mm=CAP_VALUE_MM, bold=True, lines=2, size_hint=(None, None))
        self.hint = TextLabel(lines=4, size_hint=(None, None))
        self.keys = {letter: self._key(letter) for letter in LETTERS}
        self.back = TapKey(text=say("Back one"), kind=ButtonKind.QUIET)
        self.back.bind(on_release=lambda _: self._take(self.typed.drop_letter()))
        self.leave = TapKey(text=say("Close"), kind=ButtonKind.QUIET)
        self.leave.bind(on_release=lambda _: self.dispatch("on_leave"))
        parts: list[Any] = [self.told, self.hint, self.back, self.leave, *self.keys.values()]
        for part in parts:
            part.size_hint = (None, None)
            self.add_widget(part)
        self.bind(pos=self._place, size=self._place)
        self._show()

    def on_typed(self, letters: str) -> None:
        """Event: a letter was taken; all of them as they stand."""

    def on_code(self, code: str) -> None:
        """Event: a whole code was typed."""

    def on_leave(self) -> None:
        """Event: the letters were closed without a code."""

    def _key(self, letter: str) -> Touchable:
        key = Touchable(text=letter, cap_mm=CAP_VALUE_MM)
        key.bind(on_release=lambda _: self._take(self.typed.add_letter(letter)))
        return key

    def _take(self, after: TypedCode) -> None:
        is_refused = after == self.typed or bool(after.refused)
        self.typed = after
        self._show()
        if is_refused:
            buzz()
        self.dispatch("on_typed", after.letters)
        if after.code:
            self.dispatch("on_code", after.code)

    def _show(self) -> None:
        self.told.text = self.typed.groups
        self.hint.text = (
            say(self.typed.refused)
            if self.typed.refused
            else say("Type what the other tablet shows on its Exchange page, under Tablets.")
        )

    def _place(self, *_: object) -> None:
        """Put the words on top, the letters below them in rows."""
        margin, gap, head = px(EDGE_MM), px(GAP_MM), px(HEAD_MM)
        self.paint_page()
        left, low = self.x + margin, self.y + margin
        wide, high = self.width - 2 * margin, self.height - 2 * margin
        is_wide = wide >= high
        head = px(HEAD_MM if is_wide else TOLD_MM + HINT_MM + 2 * GAP_MM)
        self._place_head(left, low + high - head + gap, wide, head - gap, is_wide)
        across = WIDE_ACROSS if is_wide else HIGH_ACROSS
        rows = -(-len(LETTERS) // across)
        key_wide = (wide - gap * (across - 1)) / across
        key_high = min((high - head - gap * (rows - 1)) / rows, px(MOST_KEY_MM))
        top = low + high - head
        for number, key in enumerate(self.keys.values()):
            row, column = divmod(number, across)
            key.size = (key_wide, key_high)
            key.pos = (left + column * (key_wide + gap), top - (row + 1) * key_high - row * gap)

    def _place_head(self, x: float, y: float, wide: float, high: float, is_wide: bool) -> None:
        """Put the letters typed, the hint, and the two keys."""
        gap, key = px(GAP_MM), px(TOUCH_MM)
        keys = px(WIDE_KEY_MM if is_wide else NARROW_KEY_MM)
        room = wide - 2 * (keys + gap)
        self.back.size = self.leave.size = (keys, key)
        low = y + high - key if is_wide else y
        self.back.pos, self.leave.pos = (x + room + gap, low), (x + room + 2 * gap + keys, low)
        if is_wide:
            self.told.pos, self.told.size = (x, y + high * 0.45), (room, high * 0.55)
            self.hint.pos, self.hint.size = (x, y), (room, high * 0.45)
        else:
            told = px(TOLD_MM)
            self.told.pos, self.told.size = (x, y + high - told), (wide, told)
            self.hint.pos, self.hint.size = (x, y), (room, px(HINT_MM))
