"""The peg test: where to stand, six figures, and the verdict as they come."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.drawing.drawing_canvas import DrawingCanvas
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.palette import CAP_LABEL_MM, CAP_LEAST_MM
from crewapp.kit.look.theme import px
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.panes.layout import Rows
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.parted_page import Part, Stack
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.laser.peg_drawing import draw_pegs
from crewapp.pages.grade.laser.peg_form import DISTANCES, ON_KEYS, PegDraft, judge_peg
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.pipe_part import StripsAndWords
from crewapp.pages.grade.question_fields import LaserQuestion, PegField
from crewapp.words.translate import say
from models.units.job_units import Figures

WORDS_MM = 12.0


class PegPart(Part):
    """The drawing and what to do at one side; the six figures and their verdict at the other."""

    has_head = False
    needs_mm: ClassVar[tuple[float, float]] = (66.0, 100.0)

    def build(self) -> None:
        """Make the drawing, the keys and the verdict."""
        self.drawing = DrawingCanvas()
        self.words = FitSentences(cap_mm=CAP_LEAST_MM + 0.3, size_hint_y=None, height=px(WORDS_MM))
        left = Rows(gap_mm=2.0)
        for part in (self.drawing, self.words):
            left.add_widget(part)
        self.keys = {name: self._key(name) for name in ON_KEYS}
        self.mark = StatusMark(cap_mm=3.8, high_mm=10.4)
        right = Stack(gap_mm=2.0)
        for part in (KeyGrid(list(self.keys.values()), across=3), self.mark):
            right.add_widget(part)
        self.main = MainKey(text=say("Ink the peg test"))
        self.main.bind(on_release=lambda _: self.page.controllers["laser"].ink_peg())
        self.foot = FootKeys(
            self.main,
            (
                ("back", say("Back"), lambda: self.page.turn_to("laser")),
                ("clear", say("Clear"), lambda: self.page.controllers["laser"].clear_peg()),
            ),
        )
        self.add_widget(StripsAndWords(left, right, lambda _: None, share=0.54))
        self.add_widget(self.foot)

    def _key(self, name: PegField) -> TapKey:
        key = TapKey(text="", note=say(ON_KEYS[name]), cap_mm=CAP_LABEL_MM + 0.5)
        key.bind(on_release=lambda _: self.page.ask(LaserQuestion(name)))
        return key

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def fill(self, view: GradePageView) -> None:
        """Show the figures typed so far, and what they come to."""
        lasers, peg = view.lasers, self.page.controllers["laser"].peg
        card = lasers.laser(peg.instrument_id) if lasers else None
        if lasers is None or card is None:
            return
        figures = lasers.figures
        self.main.note = card.instrument_id
        for name, key in self.keys.items():
            key.text = figure_text(peg, name, figures)
        self.drawing.layout = lambda wide, high: draw_pegs(peg, figures, wide, high)
        verdict = judge_peg(peg, card.limit, figures)
        self.mark.status, self.mark.text = verdict.status, verdict.text
        self.words.sentences = list(verdict.sentences)
        self.main.disabled = peg.readings() is None


def figure_text(peg: PegDraft, name: str, figures: Figures) -> str:
    """Return a figure as it was typed, written in the job's units."""
    value = peg.value(name)
    if value is None:
        return say("type it")
    return figures.length(value) if name in DISTANCES else figures.level(value)
