"""The readings as written, struck ones crossed out; one of them struck or corrected."""

from __future__ import annotations

from typing import Any

from crewapp.commands.entries import Correct, Strike
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.frame.strike_part import StrikePart
from crewapp.pages.grade.controller import Controller
from crewapp.pages.grade.fields import rod_field
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import ShotsField, ShotsQuestion
from crewapp.pages.grade.shots_view import ShotRow
from crewapp.words.translate import say

READINGS = {
    "grade_shot": "reading",
    "check_shot": "reading",
    "setup": "backsight",
    "turning_point": "foresight",
}


class ListPart(Part):
    """The readings, newest first."""

    has_head = False

    def build(self) -> None:
        """Make the list and the keys under it."""
        self.shots = RowList(TOUCH_MM)
        self.shots.nothing = say("Nothing is shot yet.")
        self.shots.bind(on_pick=lambda _, key: self._picked(key))
        leads = (
            ("back", say("Back"), lambda: self.page.turn_to("pipe")),
            ("told", say("What the pipe asks for"), lambda: self.page.turn_to("told")),
        )
        self.add_widget(self.shots)
        self.add_widget(FootKeys(None, leads))

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Shots")

    def _picked(self, key: str) -> None:
        row = row_of(self.page.view, key)
        if row is not None and not row.is_struck:
            self.page.turn_to("strike", striking=key)

    def fill(self, view: GradePageView) -> None:
        """Show the readings as written."""
        if view.shots is None:
            return
        self.shots.show_rows(
            [
                {
                    "key": row.key,
                    "title": row.title,
                    "detail": row.detail,
                    "figure": row.figure,
                    "status": row.status,
                    "is_struck": row.is_struck,
                }
                for row in view.shots.shots
            ]
        )


class PipeAdvicePart(Part):
    """Part with the advice on the pipe: low places, bad reaches, the least to lay again."""

    has_head = False

    def build(self) -> None:
        """Make the list and the key under it."""
        self.told = RowList(TOUCH_MM)
        self.told.nothing = say("The pipe asks for nothing.")
        self.add_widget(self.told)
        leads = (("back", say("Back"), lambda: self.page.turn_to("shots")),)
        self.add_widget(FootKeys(None, leads))

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("What the pipe asks for")

    def fill(self, view: GradePageView) -> None:
        """Show the advice, the faults first."""
        self.told.show_rows(
            [
                {"key": str(n), "title": one.title, "detail": one.detail, "status": one.status}
                for n, one in enumerate(view.grade.told)
            ]
        )


class StrikeShotPart(Part):
    """Part that crosses out or corrects a reading, with a reason."""

    back = "shots"

    def build(self) -> None:
        """Make the part that asks for the reason."""
        self.strike = StrikePart()
        self.strike.bind(
            on_strike=lambda _, entry_id, reason: self.page.controllers["shots"].ink(
                Strike(entry_id=entry_id, reason=reason), "shots"
            ),
            on_correct=lambda _, entry_id, reason: self._correct(reason),
        )
        self.add_widget(self.strike)

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Strike or correct")

    def _correct(self, reason: str) -> None:
        self.page.keep_draft(strike_reason=reason)
        self.page.ask(ShotsQuestion("correct"))

    def fill(self, view: GradePageView) -> None:
        """Show the reading to strike."""
        row = row_of(view, str(self.page.draft.get("striking", "")))
        if row is not None:
            self.strike.show_entry(row.key, f"{row.title}: {row.figure}", can_correct=True)


def row_of(view: GradePageView | None, key: str) -> ShotRow | None:
    """Find a reading by its entry."""
    rows = view.shots.shots if view and view.shots else ()
    return next((row for row in rows if row.key == key), None)


class ListController(Controller[ShotsField]):
    """Asks for the right reading, and puts it in the place of the wrong one."""

    def pad_question(self, name: ShotsField, view: GradePageView) -> PadQuestion | None:
        """Return what the pad asks."""
        row = row_of(view, str(self.page.draft.get("striking", "")))
        if row is None:
            return None
        words = say("Right reading")
        return PadQuestion(rod_field(view.grade.figures, words), row.title)

    def take_figure(self, name: ShotsField, value: int, text: str) -> None:
        """Ink the correction of the reading."""
        key = str(self.page.draft.get("striking", ""))
        row = row_of(self.page.view, key)
        if row is None:
            return
        field = READINGS[row.kind]
        self.ink(
            Correct(
                entry_id=key,
                reason=str(self.page.draft.get("strike_reason", "")),
                fields={f"{field}_nm": value, f"{field}_typed": text},
            ),
            "shots",
        )
