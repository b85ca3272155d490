"""Lists of the Plan screen: to choose from, to read, and to take a bearing from."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.look.palette import ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.plan.map_part import facts_of
from crewapp.pages.plan.view import PlanPageView, Row
from crewapp.words.translate import say


def list_row(row: Row) -> dict[str, Any]:
    """Return a row of a view as a row of a list."""
    return {
        "key": row.key,
        "title": row.title,
        "detail": row.detail,
        "figure": row.figure,
        "status": row.status,
    }


class ChoosePart(Part):
    """List to choose from, as ``page.question()`` has it; a tap goes to ``page.take_choice``."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self.page.take_choice(key))
        self.add_widget(self.rows)

    def title(self, view: PlanPageView) -> str:
        """Return the title: the question of this part."""
        return str(self.page.question(view)[0])

    def fill(self, view: PlanPageView) -> None:
        """Show the answers to choose from."""
        _, back, rows = self.page.question(view)
        self.back = back  # type: ignore[misc]  # the way back is the question's own
        self.rows.nothing = self.page.empty_text()
        self.rows.show_rows([list_row(row) for row in rows])


class DrivesPart(Part):
    """The passes in driving order, with their turns."""

    back: ClassVar[str] = "plan"

    def build(self) -> None:
        """Build the list of this part."""
        self.told = FactList()
        self.told.nothing = say(
            "No driving order is kept for these lines: lay them out here, and it comes with them."
        )
        self.add_widget(self.told)

    def title(self, view: PlanPageView) -> str:
        """Say what is listed."""
        return say("Passes in driving order")

    def place(self, view: PlanPageView) -> str:
        """Return the surface's name, for the head."""
        return view.surface_id

    def fill(self, view: PlanPageView) -> None:
        """Show the passes in driving order."""
        self.told.show_facts(facts_of(view.drives))


class BearingsPart(Part):
    """Bearings side by side; a tap takes one."""

    back: ClassVar[str] = "terms"

    def build(self) -> None:
        """Make the list and the words over it."""
        self.words = FitSentences(cap_mm=3.2, size_hint_y=None, height=px(11.0))
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self.page.take_bearing(key))
        self.add_widget(self.words)
        self.add_widget(self.rows)

    def title(self, view: PlanPageView) -> str:
        """Say what is compared."""
        return say("Bearings side by side")

    def place(self, view: PlanPageView) -> str:
        """Return which lines are compared, for the head."""
        return next((one.name for one in view.uses if one.use == self.page.use), "")

    def fill(self, view: PlanPageView) -> None:
        """Show the table of bearings."""
        self.words.sentences = [
            say("Tap one to take it. The fall of the ground weighs more than turns saved.")
        ]
        self.rows.nothing = view.bearings_why_not
        self.rows.show_rows([list_row(row) for row in view.bearings])


def quiet_key(text: str, act: Any, **kwargs: Any) -> TapKey:
    """Return a key that leads elsewhere."""
    key = TapKey(text=text, kind=ButtonKind.PLAIN, **kwargs)
    key.bind(on_release=lambda _: act())
    return key
