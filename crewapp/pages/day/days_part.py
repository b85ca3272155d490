"""Another day of the book: to read it, sign it, close it, or take it up again."""

from __future__ import annotations

from typing import ClassVar

from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say


class DaysPart(Part):
    """The days on which something was written, newest first."""

    back: ClassVar[str] = "menu"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(TOUCH_MM)
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.add_widget(self.rows)

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Other days")

    def fill(self, view: DayView) -> None:
        """Show the days of the book."""
        self.rows.show_rows([row.to_row() for row in view.days])

    def _pick(self, day: str) -> None:
        today = self.page.view.today
        self.page.keep_draft(part="menu", day="" if day == today else day)
        self.page.refresh()
