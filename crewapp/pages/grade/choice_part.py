"""Part with a choice among a few: large keys, nothing chosen beforehand."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import CHIP_HIGH_MM, Status
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.panes.layout import SectionRule
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.view import Choice
from crewapp.words.translate import say


class ChoicePart(Part):
    """Shows the page's ``question(view)``; a tap goes to the page's ``chosen``."""

    has_head = False

    def build(self) -> None:
        """Make the title, the keys and what should be known."""
        self.rule = SectionRule()
        self.mark = StatusMark(cap_mm=3.8)
        self.grid = KeyGrid(least_wide_mm=30.0, high_mm=CHIP_HIGH_MM)
        self.known = FitSentences()
        self.foot = FootKeys(None, (("back", say("Back"), lambda: self.page.choose_none()),))
        for part in (self.rule, self.grid, self.known, self.foot):
            self.add_widget(part)
        self._shown: tuple[Choice, ...] = ()

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def fill(self, view: Any) -> None:
        """Show the question that is open."""
        asked = self.page.question(view)
        if asked is None:
            return
        self.rule.text = asked.title
        self.known.sentences = list(asked.known)
        if bool(asked.status) != (self.mark.parent is self):
            if asked.status:
                self.add_widget(self.mark, index=len(self.children) - 1)
            else:
                self.remove_widget(self.mark)
        self.mark.status, self.mark.text = asked.status or Status.CHECK, asked.status_text
        if tuple(asked.answers) != self._shown:
            self._shown = tuple(asked.answers)
            self.grid.show_keys([self._key(answer) for answer in asked.answers])

    def _key(self, answer: Choice) -> TapKey:
        key = TapKey(text=answer.text, cap_mm=4.0, high_mm=CHIP_HIGH_MM)
        key.bind(on_release=lambda _: self.page.take_choice(answer.key))
        return key
