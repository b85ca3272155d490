"""Cross out an entry with a reason: two taps, no typing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import StringProperty
from kivy.uix.boxlayout import BoxLayout

from crewapp.kit.input.strike_reasons import READING_REASONS
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import GAP_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, Rows, SectionRule
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import PartPanes, Stack
from crewapp.words.translate import say


class StrikePart(BoxLayout):
    """Shows what is to be crossed out and reasons to tap; then strikes or corrects.

    ``show_entry`` takes the entry's id, what it says, and reasons. Events:
    ``on_strike(entry_id, reason)``, and ``on_correct(entry_id, reason)`` where
    ``can_correct``. Nothing can be struck before a reason is tapped.
    """

    reason = StringProperty("")

    def __init__(self, **kwargs: Any) -> None:
        for event in ("on_strike", "on_correct"):
            self.register_event_type(event)
        super().__init__(orientation="vertical", spacing=px(GAP_MM), **kwargs)
        self.entry_id = ""
        self.what = TextLabel(bold=True, cap_mm=4.0, lines=3, valign="top")
        self.why = TextLabel(cap_mm=3.5, lines=2)
        self.correct = TapKey(text=say("Correct it"), is_logging=False)
        self.strike = TapKey(text=say("Strike it"), kind=ButtonKind.DESTRUCTIVE)
        self.correct.bind(on_release=lambda _: self._tell("on_correct"))
        self.strike.bind(on_release=lambda _: self._tell("on_strike"))
        self.reasons = KeyGrid(least_wide_mm=21.0, high_mm=15.0)
        self.keys = Columns(high_mm=TOUCH_MM)
        self.keys.add_widget(self.strike)
        left = Rows()
        for part in (self.what, self.why, self.keys):
            left.add_widget(part)
        right = Stack()
        right.add_widget(SectionRule(text=say("Why is it wrong?")))
        right.add_widget(self.reasons)
        self.add_widget(PartPanes(left, right, share=0.45, high_share=0.45))
        self.bind(reason=self._update)

    def on_strike(self, entry_id: str, reason: str) -> None:
        """Event: cross the entry out."""

    def on_correct(self, entry_id: str, reason: str) -> None:
        """Event: put a corrected entry in its place."""

    def show_entry(
        self,
        entry_id: str,
        what: str,
        reasons: Sequence[str] = READING_REASONS,
        can_correct: bool = False,
    ) -> None:
        """Show one entry; the reason has to be tapped anew for another entry."""
        if entry_id != self.entry_id:
            self.reason = ""
        self.entry_id = entry_id
        self.what.text = what
        if can_correct != (self.correct.parent is self.keys):
            (self.keys.add_widget if can_correct else self.keys.remove_widget)(self.correct)
        keys = []
        for text in reasons:
            key = TapKey(text=say(text), kind=ButtonKind.PLAIN, cap_mm=3.5)
            key.bind(on_release=lambda _, chosen=text: setattr(self, "reason", chosen))
            keys.append(key)
        self._texts = tuple(reasons)
        self.reasons.show_keys(keys)
        self._update()

    def _tell(self, event: str) -> None:
        if self.reason:
            self.dispatch(event, self.entry_id, say(self.reason))

    def _update(self, *_: object) -> None:
        """Blacken the chosen reason; strike only with one."""
        for key, text in zip(self.reasons.keys, self._texts, strict=True):
            key.kind = ButtonKind.PRIMARY if text == self.reason else ButtonKind.PLAIN
        has_reason = bool(self.reason)
        self.strike.disabled = self.correct.disabled = not has_reason
        said = say("It stays readable, crossed out.")
        self.why.text = said if has_reason else say("Tap a reason first.")
