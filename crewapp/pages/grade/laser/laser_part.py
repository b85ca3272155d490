"""The laser itself: what was written of it, what befell it, and the way to its peg test."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.kit.input.forms import Form
from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.text_list import FactList
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.panes.layout import SectionRule
from crewapp.pages.frame.form_filling import FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.frame.question_name import FormQuestion
from crewapp.pages.grade.choice_view import Question
from crewapp.pages.grade.controller import CollectorPage, Controller
from crewapp.pages.grade.fields import rod_field, sight_field
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.laser.peg_form import DISTANCES, NAMES, PegDraft
from crewapp.pages.grade.laser.view import LaserView, event_form, instrument_form, proof_words
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import LaserField, LaserQuestion
from crewapp.pages.grade.view import Choice
from crewapp.words.translate import say

WHICH = LaserQuestion("which")


class LaserPart(Part):
    """Part with a laser: how it stands, its tests and what befell it, newest first."""

    has_head = False
    needs_mm: ClassVar[tuple[float, float]] = (62.0, 88.0)

    def build(self) -> None:
        """Make the state, the list and the keys."""
        self.rule = SectionRule()
        self.mark = StatusMark(cap_mm=3.8, high_mm=10.4)
        self.told = FactList()
        self.main = MainKey(text=say("Peg test"), is_logging=False)
        self.main.bind(on_release=lambda _: self.page.controllers["laser"].begin_peg())
        self.foot = FootKeys(
            self.main,
            (
                ("back", say("Back"), lambda: self.page.turn_to("setup")),
                ("event", say("Dropped, serviced"), self._event),
                ("other", say("Another laser"), lambda: self.page.choose(WHICH, "laser")),
            ),
        )
        for part in (self.rule, self.mark, self.told, self.foot):
            self.add_widget(part)

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def _event(self) -> None:
        self.page.controllers["laser"].begin_event()

    def fill(self, view: GradePageView) -> None:
        """Show the laser looked at."""
        lasers = view.lasers
        card = lasers.laser(self.page.controllers["laser"].laser_id) if lasers else None
        if card is None:
            return
        self.rule.text = card.instrument_id
        self.rule.figure = card.sort
        self.mark.status, self.mark.text = proof_words(card)
        self.told.show_facts([Fact(one.title, one.detail, "", one.status) for one in card.told])


class LaserController(Controller[LaserField]):
    """Adds lasers, notes what befell them, and takes the figures of a peg test."""

    def __init__(self, page: CollectorPage, filling: FormFilling) -> None:
        super().__init__(page)
        self.filling = filling

    @property
    def view(self) -> LaserView:
        """The lasers as last read."""
        found = self.page.view.lasers if self.page.view else None
        return found or LaserView()

    @property
    def laser_id(self) -> str:
        """The laser looked at."""
        return str(self.page.draft.get("laser", ""))

    @property
    def peg(self) -> PegDraft:
        """The peg test as far as it is typed; of another laser it counts as none."""
        kept = PegDraft.from_plain(self.page.draft.get("peg"))
        card = self.view.laser(self.laser_id)
        name = card.instrument_id if card else self.laser_id
        return kept if kept.instrument_id == name else PegDraft(name)

    def look_at(self, laser_id: str) -> None:
        """Show the laser of an id."""
        self.page.turn_to("laser", laser=laser_id)

    def begin_adding(self) -> None:
        """Ask what a new laser is."""
        self.filling.begin("instrument")

    def begin_event(self) -> None:
        """Ask what befell the laser looked at."""
        card = self.view.laser(self.laser_id)
        if card is not None:
            self.filling.begin(f"event/{card.instrument_id}")

    def begin_peg(self) -> None:
        """Show the peg test of the laser looked at."""
        self.page.turn_to("peg")

    def form(self, name: str) -> Form | None:
        """Return a form by name."""
        if name == "instrument":
            return instrument_form(self.view)
        sort, _, laser_id = name.partition("/")
        return event_form(laser_id) if sort == "event" and laser_id else None

    def pad_question(self, name: LaserField, view: GradePageView) -> PadQuestion | None:
        """Return what the pad asks: a figure of the peg test."""
        words = say(NAMES[name])
        make = sight_field if name in DISTANCES else rod_field
        return PadQuestion(make(self.view.figures, words))

    def take_figure(self, name: LaserField, value: int, text: str) -> None:
        """Keep a figure of the peg test, and ask the next at once."""
        self.page.drop_typed()
        peg = self.peg.with_figure(name, value, text)
        self.page.turn_to("peg", peg=peg.to_plain())
        if peg.next and peg.next not in (self.peg.typed or {}):
            self.page.ask(LaserQuestion(peg.next))

    def ink_peg(self) -> None:
        """Ink the peg test; it is forgotten once it is inked."""
        peg = self.peg

        def done(_changed: Any) -> None:
            self.page.keep_draft(peg=None)
            self.page.turn_to("laser")

        self.page.shell.do(peg.command(), done, self.page.show_refusal)

    def clear_peg(self) -> None:
        """Forget the figures typed so far."""
        self.page.turn_to("peg", peg=None)

    def question(self, name: LaserField, view: GradePageView) -> Question | None:
        """Return the question which laser is looked at."""
        answers = [Choice(one.instrument_id, one.instrument_id) for one in self.view.lasers]
        return Question(say("Which laser?"), [*answers, Choice("+", say("Add a laser"))])

    def take_choice(self, name: LaserField, key: str) -> None:
        """Look at the laser chosen, or add one."""
        if key == "+":
            self.begin_adding()
        else:
            self.look_at(key)


class FormController(Controller[str]):
    """Hands figures that the pad takes for a form to its filling."""

    def __init__(self, page: CollectorPage, filling: FormFilling) -> None:
        super().__init__(page)
        self.filling = filling

    def pad_question(self, name: str, view: GradePageView) -> PadQuestion | None:
        """Return the pad's field for a question of the form."""
        return self.filling.pad_question(str(FormQuestion(name)))

    def take_figure(self, name: str, value: int, text: str) -> None:
        """Take a figure typed for a question."""
        self.page.drop_typed()
        self.filling.take_figure(name, value, text)
