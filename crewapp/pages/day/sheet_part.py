"""The day sheet to read as it will print, and its files."""

from __future__ import annotations

from typing import ClassVar

from crewapp.kit.keys.copy_key import CopyKey
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.fact_list import Fact, FactList
from crewapp.kit.look.palette import GAP_MM, TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns
from crewapp.kit.text.path_text import PathLabel
from crewapp.pages.day.forms.menu import day_words
from crewapp.pages.day.sheet_writer import SheetMaker
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

TOLD_MM = 15.0


class SheetPart(Part):
    """The facts of the sheet, one a row, in the order of its bands."""

    back: ClassVar[str] = "menu"
    needs_mm = (45.0, 52.0)

    def build(self) -> None:
        """Make the facts, the key, and the words about the files."""
        self.told = PathLabel(lines=4, cap_mm=3.5)
        self.copy = CopyKey(wide_mm=26.0, copied="")
        self.row = Columns(high_mm=TOLD_MM)
        self.row.add_widget(self.told)
        self.maker = SheetMaker(self.page.shell, self._say)
        self.key = TapKey(text=say("Make the files"))
        self.key.bind(on_release=lambda _: self.maker.make(self.page.view.day, lambda _: None))
        self.facts = FactList([self.key])
        self.add_widget(self.facts)

    def title(self, view: DayView) -> str:
        """Return the title: the name of the sheet."""
        return view.sheet_title or say("Day sheet")

    def place(self, view: DayView) -> str:
        """Return the day that the part shows, for the head."""
        return day_words(view)

    def fill(self, view: DayView) -> None:
        """Show the facts of the sheet."""
        self.facts.show_facts(
            [Fact(row.title, row.detail, row.figure, row.status) for row in view.sheet]
        )

    def _say(self, text: str) -> None:
        """Say where the files are, for as long as the part is in front."""
        self.told.said = text
        self.copy.copied = "" if self.maker.is_busy else str(self.maker.folder)
        if bool(self.copy.copied) != (self.copy.parent is self.row):
            (self.row.add_widget if self.copy.copied else self.row.remove_widget)(self.copy)
        self.key.disabled = self.maker.is_busy
        has_room = self.height > px(TOLD_MM + TOUCH_MM + 3 * GAP_MM)
        if self.row.parent is None and has_room:
            self.add_widget(self.row)
