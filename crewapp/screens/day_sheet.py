"""The day sheet to read as it will print, and its files."""

from __future__ import annotations

from typing import ClassVar

from crewapp.palette import GAP_MM, TOUCH_MM
from crewapp.screens.parted_page import Part
from crewapp.screens.sheet_maker import SheetMaker
from crewapp.state.day import DayFace
from crewapp.state.day_menu import day_words
from crewapp.theme import px
from crewapp.widgets.fact_list import Fact, FactList
from crewapp.widgets.touchable import TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say

TOLD_MM = 12.0


class SheetPart(Part):
    """The facts of the sheet, one a row, in the order of its bands."""

    back: ClassVar[str] = "menu"
    needs_mm = (45.0, 52.0)

    def build(self) -> None:
        """Make the facts, the key, and the words about the files."""
        self.told = Words(lines=2, cap_mm=3.5, size_hint_y=None, height=px(TOLD_MM))
        self.maker = SheetMaker(self.page.shell, self._say)
        self.key = TapKey(text=say("Make the files"))
        self.key.bind(on_release=lambda _: self.maker.make(self.page.told.day, lambda _: None))
        self.facts = FactList([self.key])
        self.add_widget(self.facts)

    def title(self, face: DayFace) -> str:
        """Name the sheet."""
        return face.sheet_title or say("Day sheet")

    def place(self, face: DayFace) -> str:
        """Say which day."""
        return day_words(face)

    def fill(self, face: DayFace) -> None:
        """Show the facts."""
        self.facts.show_facts(
            [Fact(row.title, row.detail, row.figure, row.status) for row in face.sheet]
        )

    def _say(self, text: str) -> None:
        """Say where the files are, for as long as the part is in front."""
        self.told.text = text
        self.key.disabled = self.maker.is_busy
        has_room = self.height > px(TOLD_MM + TOUCH_MM + 3 * GAP_MM)
        if self.told.parent is None and has_room:
            self.add_widget(self.told)
