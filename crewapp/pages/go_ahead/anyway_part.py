"""Part for going on although the go-ahead says not yet: a reason tapped, then a key held."""

from __future__ import annotations

from typing import Any

from crewapp.commands.go_ahead import GoOnAnyway
from crewapp.kit.keys.hold_key import HoldKey
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import KEY_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.marks.notice_strip import NoticeStrip
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.go_ahead.view import REASONS, GoAheadView
from crewapp.words.translate import say

LINE_MM = 15.1


class GoOnAnywayPart(Part):
    """Part with the page's ``blocking_go_ahead``; what is missing stays written, why is inked."""

    def build(self) -> None:
        """Make the line, the reasons and the key that is held."""
        self.back = next(iter(self.page.parts))  # type: ignore[misc]  # each page's own first part
        self.line = NoticeStrip()
        self.line.height = px(LINE_MM)
        self.grid = KeyGrid(least_wide_mm=40.0)
        self.hold = HoldKey(text=say("Hold to go on without"), high_mm=KEY_MM)
        self.hold.bind(on_held=lambda _: self._go_on())
        self.reason = ""
        self.keys: dict[str, TapKey] = {}
        for part in (self.line, self.grid, self.hold):
            self.add_widget(part)

    def title(self, view: Any) -> str:
        """Return the title of this part."""
        return say("Go on anyway")

    def fill(self, view: Any) -> None:
        """Show what is missing and why work might go on."""
        told: GoAheadView | None = self.page.blocking_go_ahead()
        if told is None:
            return
        self.line.status, self.line.title, self.line.text = told.status, told.title, told.text
        reasons = [say(one) for one in REASONS[told.missing]]
        if list(self.keys) != reasons:
            self.reason = ""
            self.keys = {reason: self._key(reason) for reason in reasons}
            self.grid.show_keys(list(self.keys.values()))
        self._show_chosen()

    def _key(self, reason: str) -> TapKey:
        key = TapKey(text=reason)
        key.bind(on_release=lambda _: self._choose(reason))
        return key

    def _choose(self, reason: str) -> None:
        self.reason = reason
        self._show_chosen()

    def _show_chosen(self) -> None:
        for reason, key in self.keys.items():
            key.kind = ButtonKind.PRIMARY if reason == self.reason else ButtonKind.PLAIN
        self.hold.disabled = not self.reason
        self.hold.note = "" if self.reason else say("tap the reason first")

    def _go_on(self) -> None:
        told: GoAheadView | None = self.page.blocking_go_ahead()
        if told is None or not self.reason:
            return
        self.page.shell.do(
            GoOnAnyway(place=told.place, missing=told.missing, reason=self.reason),
            self._gone_on,
            self.page.fill,
        )

    def _gone_on(self, _changed: Any) -> None:
        self.reason = ""
        self.page.turn_to(self.back)
