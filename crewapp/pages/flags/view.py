"""Views of the Flags screen: flags that stand open, worst first, and answered ones."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.flags import AnswerFlag
from crewapp.commands.query import Query
from crewapp.kit.input.forms import AnswerKind, Form, Option, Step
from crewapp.kit.input.list_rows import DayRow, shorten
from crewapp.kit.look.palette import Status
from crewapp.words.translate import say, translate_later

LONGEST_IN_ROW, LONGEST_ANSWER, LONGEST_BEFORE = 130, 44, 170
SEVERITY_WORDS = {
    "stop": translate_later("STOP work"),
    "fix": translate_later("FIX today"),
    "note": translate_later("NOTE"),
}
SEVERITY_STATUS = {"stop": Status.OUT, "fix": Status.CHECK, "note": Status.NOT_MEASURED}
ANSWER_WORDS = {
    "accept": translate_later("accepted as is"),
    "rework": translate_later("to be reworked"),
    "waive": translate_later("waived"),
}
ANSWERS = {
    "accept": (translate_later("Accept as is"), translate_later("no harm")),
    "rework": (translate_later("Rework"), translate_later("new readings")),
    "waive": (translate_later("Waive"), translate_later("not needed")),
}
REASONS = {
    "accept": (
        translate_later("too little to matter"),
        translate_later("owner agreed"),
        translate_later("drains well as it is"),
        translate_later("ground did not allow better"),
        translate_later("seen and measured again"),
    ),
    "rework": (
        translate_later("doing it now"),
        translate_later("first thing tomorrow"),
        translate_later("when sand comes"),
        translate_later("when the ground is dry"),
        translate_later("blade or laser put right first"),
    ),
    "waive": (
        translate_later("wrong reading, struck"),
        translate_later("plan was changed"),
        translate_later("does not apply here"),
        translate_later("owner will do it"),
        translate_later("logged elsewhere"),
    ),
}


@dataclass(frozen=True, slots=True)
class FlagRow:
    """Flag in a list: how it weighs, what it says, and its answer if it has one."""

    key: str
    severity: str
    said: str
    day: str
    answer: str = ""
    lapsed: str = ""

    @property
    def word(self) -> str:
        """Return the weight as a word."""
        return say(SEVERITY_WORDS[self.severity])

    def to_row(self) -> DayRow:
        """Return the flag as a row; an answered one has a shape and a word of its own."""
        said = shorten(self.said, LONGEST_IN_ROW)
        if self.answer:
            return DayRow(self.key, said, shorten(self.answer, LONGEST_ANSWER), "", Status.OK)
        detail = f"{self.word}  {self.day}"
        if self.lapsed:
            detail = say("{flag}, answer lapsed", flag=detail)
        return DayRow(self.key, said, detail, "", SEVERITY_STATUS[self.severity])


@dataclass(frozen=True, slots=True)
class FlagCard:
    """Flag in full. ``figures`` is the digest that its answer holds for.

    ``lapsed`` says what was answered when its figures were others; ``leads_to``
    is the page where the work is done, with what to arrive with.
    """

    row: FlagRow
    figures: str
    why: str
    cure: str
    rests_on: tuple[DayRow, ...] = ()
    answered: str = ""
    lapsed: str = ""
    leads_to: str = ""
    arrive: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class FlagsView:
    """Flags open and answered, and the one that is looked at."""

    day: str = ""
    open: tuple[FlagRow, ...] = ()
    answered: tuple[FlagRow, ...] = ()
    card: FlagCard | None = None

    @property
    def count_stops(self) -> int:
        """Return how many stop the work."""
        return sum(row.severity == "stop" for row in self.open)


def answer_form(card: FlagCard, answer: str) -> Form:
    """Return the question about why a flag is answered so."""
    word, _ = ANSWERS[answer]
    reasons = tuple(Option(say(text), say(text)) for text in REASONS[answer])
    why = Step("why", say("Reason"), say("Why?"), AnswerKind.TEXT, reasons, True)
    return Form(
        name=f"{answer}/{card.row.key}",
        title=say(word),
        steps=(why,),
        command=lambda answers: AnswerFlag(
            key=card.row.key, figures=card.figures, answer=answer, why=answers["why"]
        ),
        ink=say(word),
        back="flag",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowFlags(Query[FlagsView]):
    """Query for what the Flags page shows, and the flag of a key in full."""

    key: str = ""
