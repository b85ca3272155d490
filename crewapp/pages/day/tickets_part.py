"""Locate tickets: which are in date, and a new one."""

from __future__ import annotations

from typing import ClassVar

from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.lists.row_list import RowList
from crewapp.pages.day.view import DayView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say


class TicketsPart(Part):
    """The tickets, the one that lasts longest first, and the key for one more."""

    back: ClassVar[str] = "menu"

    def build(self) -> None:
        """Make the list and the key."""
        self.rows = RowList(22.0)
        self.rows.nothing = say("No locate ticket yet: nobody digs.")
        self.add = MainKey(text=say("Add a ticket"), is_logging=False)
        self.add.bind(on_release=lambda _: self.page.filling.begin("ticket"))
        self.add_widget(self.rows)
        self.add_widget(self.add)

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Locate tickets")

    def fill(self, view: DayView) -> None:
        """Show the locate tickets in order."""
        self.rows.show_rows([row.to_row() for row in view.tickets])
        self.add.disabled = view.is_closed
