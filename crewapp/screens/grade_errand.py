"""What the Grade page does for one subject: what it asks, by pad or by keys, and inks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from crewapp.screens.grade_choice import Question
from crewapp.screens.pad_sheet import Asked
from crewapp.state.grade_screen import GradeScreen

if TYPE_CHECKING:
    from crewapp.screens.grade import GradePage


class Errand:
    """One subject of the page. Names are the subject's own, without the page's prefix."""

    def __init__(self, page: GradePage) -> None:
        self.page = page

    def asked(self, name: str, face: GradeScreen) -> Asked | None:
        """Return what the pad asks, or None if it can't be asked for now."""
        return None

    def entered(self, name: str, value: int, text: str) -> None:
        """Take a figure from the pad."""

    def question(self, name: str, face: GradeScreen) -> Question | None:
        """Return what is asked by keys, or None if it can't be asked for now."""
        return None

    def chosen(self, name: str, key: str) -> None:
        """Take an answer."""

    def ink(self, action: str, then: str, **fields: Any) -> None:
        """Do an action, then forget what was typed and show a part."""

        def done(_changed: Any) -> None:
            self.page.figure_done()
            self.page.turn_to(then)

        self.page.shell.act(action, done, self.page.refused, **fields)
