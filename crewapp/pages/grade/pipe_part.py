"""The collector as it stands: the two strips, the laser, the last shot, the next one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from kivy.uix.boxlayout import BoxLayout

from crewapp.kit.drawing.drawing_canvas import ProfileCanvas
from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.look.palette import CAP_LEAST_MM, GAP_MM, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.marks.status_tile import DENSE_MM, StatusTile
from crewapp.kit.panes.layout import Rows, SectionRule, place_in
from crewapp.kit.text.fit_text import FitSentences
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.grade.foot_keys import FootKeys
from crewapp.pages.grade.laser.view import WANTED
from crewapp.pages.grade.page_view import GradePageView
from crewapp.pages.grade.question_fields import RodPlaceQuestion
from crewapp.pages.grade.view import ON_WORDS, GradeView, on_grade_words
from crewapp.words.translate import say, translate_later

WHICH_COLLECTOR = RodPlaceQuestion("collector")
BESIDE_FROM_MM = 125.0
WORDS_SHARE = 0.44
ROOMY_MM, RULE_HIGH_MM = 60.0, 7.0
"""From the first height on the words beside the strips have room for all of them."""
LOW_MM = 85.0
"""Below this height the profile and all the words under it don't both have room."""


class StripsAndWords(BoxLayout):
    """The strips, and the words beside them where the page is wide enough, else under them.

    ``suit(is_beside)`` gives the words the lines that they then have.
    """

    def __init__(
        self, strips: Any, words: Any, suit: Callable[[bool], None], share: float = WORDS_SHARE
    ) -> None:
        self.share = share
        super().__init__(spacing=px(GAP_MM))
        self.strips, self.words, self.suit = strips, words, suit
        self.add_widget(strips)
        self.add_widget(words)
        self.bind(size=self.turn)

    def turn(self, *_: object) -> None:
        """Lay both out for the room there is, and suit the words to it."""
        is_beside = bool(self.width >= max(self.height, px(BESIDE_FROM_MM)))
        self.orientation = "horizontal" if is_beside else "vertical"
        self.suit(is_beside)
        if is_beside:
            self.words.size_hint = (self.share, 1)
            self.strips.size_hint = (1 - self.share, 1)
        else:
            self.strips.size_hint = (1, 1)
            self.words.size_hint = (1, None)
            needed = sum(one.height for one in self.words.children if one.size_hint_y is None)
            needed += self.words.spacing * (len(self.words.children) - 1)
            self.words.height = max(needed, self.height * 0.4)


class PipePart(Part):
    """The part that the Grade screen begins with."""

    has_head = False

    def build(self) -> None:
        """Make the strips, the words beside them and the keys."""
        self.is_doubted, self.is_beside = False, True
        self.rule = SectionRule()
        self.rule.height = px(RULE_HIGH_MM)
        self.strips = ProfileCanvas()
        self.laser = TextLabel(bold=True, lines=2, size_hint_y=None, height=px(10.0))
        self.proof = StatusMark(cap_mm=3.8, high_mm=10.4)
        self.last = StatusMark(cap_mm=3.8, high_mm=15.2)
        self.last.words.lines = 3
        self.story = FitSentences(cap_mm=CAP_LEAST_MM + 0.3)
        self.ahead = StatusTile(high_mm=DENSE_MM, is_dense=True)
        self.ahead.bind(on_release=lambda _: self.page.ahead.look())
        self.beside = Rows(gap_mm=2.0)
        for part in (self.laser, self.proof, self.last, self.story):
            self.beside.add_widget(part)
        self.next = MainKey(text="", is_logging=False)
        self.next.bind(on_release=lambda _: self._go_on())
        self.foot = FootKeys(
            self.next,
            (
                ("setup", say("Laser"), lambda: self.page.turn_to("setup")),
                ("shots", say("Shots"), lambda: self.page.turn_to("shots")),
                ("cover", say("Cover"), lambda: self.page.turn_to("cover")),
                ("collector", say("Line"), lambda: self.page.choose(WHICH_COLLECTOR, "pipe")),
            ),
        )
        self.add_widget(self.rule)
        self.both = StripsAndWords(self.strips, self.beside, self._suit)
        self.add_widget(self.both)
        self.add_widget(self.foot)

    def _suit(self, is_beside: bool) -> None:
        """Give the words lines enough for the width that they have."""
        self.is_beside = is_beside
        self.last.words.lines = 3 if is_beside else 2
        self.last.height = px(15.2 if is_beside else 10.4)
        self._lengthen()
        place_in(self.story, self.beside, not self.is_tight, 0)
        place_in(self.ahead, self.beside, self.has_ahead, len(self.beside.children))
        is_short = self.is_cramped
        place_in(
            self.laser, self.beside, not self.is_tight and not is_short, len(self.beside.children)
        )
        after_last = self.beside.children.index(self.last) + 1
        place_in(self.proof, self.beside, not is_short, after_last)

    def _lengthen(self) -> None:
        """Give a laser that is not proven the line that its name has else."""
        is_short = self.is_doubted or not self.is_beside
        is_long = self.is_doubted and not self.is_tight
        self.laser.lines = 1 if is_short else 2
        self.laser.height = px(5.0 if is_short else 9.7)
        self.proof.words.lines = 3 if is_long and self.is_beside else 2
        self.proof.height = px(15.2 if is_long else 10.2 if self.is_tight else 10.4)
        self.beside.spacing = px(1.6 if self.is_tight else 2.0)
        if self.is_tight:
            self.last.height = px(15.0)

    @property
    def is_tight(self) -> bool:
        """Whether the words beside the strips have no room for all of them."""
        return self.is_beside and self.has_ahead and self.both.height < px(ROOMY_MM)

    @property
    def is_cramped(self) -> bool:
        """Whether the profile has room only if words of a laser that is in order are left out.

        The Laser key leads to it; without the profile nobody sees where the line runs.
        """
        is_low = not self.is_beside and self.both.height < px(LOW_MM)
        return is_low and self.has_ahead and not self.is_doubted

    @property
    def has_ahead(self) -> bool:
        """Whether something has to wait or wants a look before anybody digs or enters."""
        told = self.page.ahead.gravest()
        return told is not None and Status(told.status) in {Status.OUT, Status.CHECK}

    def title(self, view: Any) -> str:
        """Return the words in the page's head."""
        return say("Grade")

    def _go_on(self) -> None:
        if self.page.ahead.blocking_go_ahead(self.page.rod_stands_on) is not None:
            self.page.ahead.mend()
        elif self.page.view is not None and self.page.view.grade.setup is None:
            self.page.turn_to("setup")
        else:
            self.page.ask("shot")

    def fill(self, view: GradePageView) -> None:
        """Show the collector as it stands."""
        grade = view.grade
        self.rule.text = f"{grade.collector_id}  {grade.name}".strip() or say(
            "No collector yet: a plan file brings it"
        )
        self.rule.figure = (
            say("design {grade}", grade=grade.design_grade) if grade.design_grade else ""
        )
        self.strips.layout = grade.chart
        self.last.status = grade.last.status
        self.last.text = ": ".join(part for part in (grade.last_title, grade.last.text) if part)
        good = [
            one.sentence
            for one in (grade.dig, grade.trench)
            if one is not None and (one is not self.page.ahead.gravest() or not self.has_ahead)
        ]
        self.story.sentences = [*grade.sentences(), *good]
        self._fill_laser(grade)
        station_nm, on = self.page.station_nm, grade.on
        where = say(
            "{station} {what}", station=grade.figures.station(station_nm), what=say(ON_WORDS[on])
        )
        is_set = grade.setup is not None
        self.next.text = say("Shoot {where}", where=where) if is_set else say("Set up the laser")
        self.next.note = on_grade_words(grade, on, station_nm) if is_set else ""
        self.next.disabled = not grade.collector_id
        self._fill_ahead()

    def _fill_ahead(self) -> None:
        """Say before the act what has to wait; its mend is the main key then."""
        told = self.page.ahead.gravest()
        if told is not None:
            tile = self.ahead
            tile.status, tile.name, tile.detail = told.status, told.title, told.text
        waits = self.page.ahead.blocking_go_ahead(self.page.rod_stands_on)
        if waits is not None:
            self.next.text, self.next.note = waits.mend, ""
        self.both.turn()

    def _fill_laser(self, grade: GradeView) -> None:
        """Show the laser and how it was proved."""
        setup = grade.setup
        self.is_doubted = setup is not None and bool(setup.doubt)
        self._lengthen()
        if setup is None:
            self.laser.text = say("No laser set up today")
            self.proof.status, self.proof.text = Status.NOT_MEASURED, ""
            return
        where = {"setup": setup.setup_id, "point": setup.on_point, "height": setup.height}
        told = self.page.check_told or (setup.status, setup.proof)
        self.proof.status, self.proof.text = told
        if not setup.doubt:
            words = translate_later("{setup} on {point}, HI {height}, {plane}")
            self.laser.text = say(words, plane=setup.plane_text, **where)
            return
        self.laser.text = say("{setup} on {point}, HI {height}", **where)
        if told[0] != Status.OUT:
            self.proof.status, self.proof.text = Status.CHECK, say(WANTED)
        self.story.sentences = [setup.doubt, told[1], *self.story.sentences]
