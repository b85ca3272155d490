"""The day sheet to read as it will print, and its files."""

from __future__ import annotations

from typing import ClassVar

from crewapp.palette import KEY_MM
from crewapp.screens.parted_page import Part
from crewapp.screens.sheet_maker import SheetMaker
from crewapp.state.day import DayFace, DayRow
from crewapp.state.day_menu import day_words
from crewapp.widgets.layout import Columns
from crewapp.widgets.row_list import RowList
from crewapp.widgets.touchable import TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say


class SheetPart(Part):
    """The facts of the sheet, one a row, in the order of its bands."""

    back: ClassVar[str] = "menu"
    needs_mm = (48.0, 66.0)

    def build(self) -> None:
        """Make the rows, the words about the files, and the key."""
        self.rows = RowList(19.0)
        self.rows.nothing = say("gathering the sheet ...")
        self.told = Words(lines=3, cap_mm=3.5)
        self.key = TapKey(
            text=say("Make the files"), note=say("PDF, XLSX, CSV"), wide_mm=48.0, size_hint_y=1
        )
        self.maker = SheetMaker(self.page.shell, self._say)
        self.key.bind(on_release=lambda _: self.maker.make(self.page.told.day, lambda _: None))
        foot = Columns(high_mm=KEY_MM - 4.0)
        foot.add_widget(self.told)
        foot.add_widget(self.key)
        self.add_widget(self.rows)
        self.add_widget(foot)
        self.shown: tuple[DayRow, ...] | None = None

    def title(self, face: DayFace) -> str:
        """Name the sheet."""
        return face.sheet_title or say("Day sheet")

    def place(self, face: DayFace) -> str:
        """Say which day."""
        return day_words(face)

    def fill(self, face: DayFace) -> None:
        """Show the facts; the rows stay where they were turned to while they are the same."""
        if face.sheet != self.shown:
            self.shown = face.sheet
            self.rows.show_rows([row.to_row() for row in face.sheet])

    def _say(self, text: str) -> None:
        self.told.text = text
        self.key.disabled = self.maker.is_busy
