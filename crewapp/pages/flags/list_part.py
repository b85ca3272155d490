"""Flags as a list: what stands open, worst first, then what was answered."""

from __future__ import annotations

from crewapp.kit.input.list_rows import DayRow
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.theme import px
from crewapp.pages.flags.view import FlagsView
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

ROW_MM, NARROW_ROW_MM, NARROW_MM = 21.0, 30.0, 110.0


class ListPart(Part):
    """List of the flags; an answered one never vanishes while its fault is there."""

    needs_mm = (33.0, 33.0)

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(ROW_MM)
        self.rows.nothing = say("Nothing stands open, nothing was answered.")
        self.rows.bind(on_pick=lambda _, key: self.page.open_flag(key))
        self.rows.bind(width=lambda *_: self._size_rows())
        self.add_widget(self.rows)
        self.shown: tuple[DayRow, ...] | None = None

    def _size_rows(self) -> None:
        """Give a sentence more lines where they are short."""
        is_narrow = self.rows.width < px(NARROW_MM)
        self.rows.set_row_mm(NARROW_ROW_MM if is_narrow else ROW_MM)

    def title(self, view: FlagsView) -> str:
        """Say how many stand open."""
        return say("Flags open: {count}", count=len(view.open))

    def place(self, view: FlagsView) -> str:
        """Say how many stop the work, or were answered."""
        if view.count_stops:
            return say("stopping the work: {count}", count=view.count_stops)
        return say("answered: {count}", count=len(view.answered))

    def fill(self, view: FlagsView) -> None:
        """Show the flags; the list stays where it was turned to while they are the same."""
        rows = tuple(row.to_row() for row in (*view.open, *view.answered))
        if rows != self.shown:
            self.shown = rows
            self.rows.show_rows([row.to_row() for row in rows])
        self.page.shell.count_flags(len(view.open))
