"""The level run: every sight from the benchmark to the laser, and how it closes."""

from __future__ import annotations

from typing import Any

from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.grade.page_view import GradePageView
from crewapp.words.translate import say


class RunPart(Part):
    """The sights as rows; the misclosure above them once the run closes."""

    back = "setup"

    def build(self) -> None:
        """Make the rows and the mark."""
        self.mark = StatusMark(cap_mm=3.8, high_mm=11.0)
        self.rows = RowList(TOUCH_MM)
        self.rows.nothing = say("The laser is not set up yet.")
        self.add_widget(self.rows)

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Level run")

    def fill(self, view: GradePageView) -> None:
        """Show the sights of the run."""
        setups = view.setups
        if setups is None:
            return
        self.rows.show_rows(
            [
                {
                    "key": str(number),
                    "title": row.title,
                    "detail": row.detail,
                    "figure": row.figure,
                    "status": row.status,
                }
                for number, row in enumerate(setups.run)
            ]
        )
        if bool(setups.closes) != (self.mark.parent is self):
            if setups.closes:
                self.add_widget(self.mark, index=1)
            else:
                self.remove_widget(self.mark)
        self.mark.status, self.mark.text = setups.closes_status, setups.closes
