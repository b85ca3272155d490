"""Signatures for the day: who has signed, and a place to sign."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.day import SignDay
from crewapp.kit.drawing.signature_pad import SignaturePad
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.pages.day.forms.menu import day_words
from crewapp.pages.day.forms.sign import SIGNS
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.dates import full_day
from crewapp.words.translate import say


class SignPart(Part):
    """The signatures there are, and one key for each that may be given."""

    back: ClassVar[str] = "menu"
    needs_mm = (38.0, 56.0)

    def build(self) -> None:
        """Make the list and the keys."""
        self.rows = RowList(TOUCH_MM)
        self.rows.nothing = say("Nobody has signed this day yet.")
        self.keys = KeyGrid(least_wide_mm=28.0, high_mm=18.0)
        keys = []
        for meaning, (who, says) in SIGNS.items():
            key = TapKey(text=say(who), note=say(says))
            key.bind(on_release=lambda _, said=meaning: self.page.filling.begin(f"sign/{said}"))
            keys.append(key)
        self.keys.show_keys(keys)
        self.add_widget(self.rows)
        self.add_widget(self.keys)

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Sign")

    def place(self, view: DayView) -> str:
        """Say which day is signed for."""
        return day_words(view)

    def fill(self, view: DayView) -> None:
        """Show the signatures, and which were given over other entries than stand now."""
        self.rows.show_rows([row.to_row() for row in view.signatures])


class PadPart(Part):
    """The signature itself; half a signature survives a kill."""

    back: ClassVar[str] = "sign"
    needs_mm = (58.0, 58.0)

    def build(self) -> None:
        """Make the pad and the key."""
        self.pad = SignaturePad(size_hint_y=1)
        self.pad.bind(on_signed=lambda _: self._signed())
        self.ink = MainKey(text=say("Ink the signature"))
        self.ink.bind(on_release=lambda _: self._ink())
        self.add_widget(self.pad)
        self.add_widget(self.ink)

    @property
    def signature_fields(self) -> dict[str, Any]:
        """Return who signs, and what the signature states."""
        found = self.page.draft.get("signing")
        return found if isinstance(found, dict) else {}

    def title(self, view: DayView) -> str:
        """Return the title: who signs."""
        return str(self.signature_fields.get("name", "")) or say("Sign")

    def place(self, view: DayView) -> str:
        """Say what is signed."""
        who, says = SIGNS.get(self.signature_fields.get("meaning", ""), SIGNS["received"])
        return say("{who}: {says}", who=say(who), says=say(says))

    def fill(self, view: DayView) -> None:
        """Draw again what was signed before a kill."""
        self.pad.name = say("for {day}", day=full_day(view.day, view.figures.is_us))
        kept = self.page.draft.get("strokes") or []
        strokes = [[(int(x), int(y)) for x, y in stroke] for stroke in kept]
        if strokes != self.pad.strokes:
            self.pad.strokes = strokes
            self.pad.redraw()
        self.ink.disabled = not strokes

    def _signed(self) -> None:
        self.page.keep_draft(strokes=[[list(point) for point in one] for one in self.pad.strokes])
        self.ink.disabled = not self.pad.strokes

    def _ink(self) -> None:
        strokes = tuple(tuple(stroke) for stroke in self.pad.strokes)
        self.page.shell.do(
            SignDay(day=self.page.view.day, strokes=strokes, **self.signature_fields), self._inked
        )

    def _inked(self, _changed: Any) -> None:
        self.page.turn_to("sign", strokes=[], signing={})
