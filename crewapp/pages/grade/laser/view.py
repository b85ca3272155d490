"""Views of a laser: what it is, its peg tests, why it wants one."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from crewapp.commands.lasers import AddInstrument, LogInstrumentEvent
from crewapp.kit.input.forms import AnswerKind, Form, Option, Step, text_of, value_of
from crewapp.kit.look.palette import Status
from crewapp.pages.grade.fields import days_field, peg_limit_field, seconds_field
from crewapp.words.translate import say, translate_later
from models.units.job_units import Figures

SORT_WORDS = {
    "rotating_laser": translate_later("rotating laser"),
    "pipe_laser": translate_later("pipe laser"),
    "automatic_level": translate_later("automatic level"),
    "digital_level": translate_later("digital level"),
}
EVENT_WORDS = {
    "dropped": translate_later("It was dropped"),
    "serviced": translate_later("It was serviced"),
    "calibrated": translate_later("It was calibrated"),
    "other": translate_later("Something else"),
}
WANTED = translate_later("Laser not proven: peg test wanted")


@dataclass(frozen=True, slots=True)
class PipeAdvice:
    """Note on a laser: its day, what it says, how it stands."""

    title: str
    detail: str = ""
    status: str = ""


@dataclass(frozen=True, slots=True)
class LaserCard:
    """Card of a laser: how it stands today, and every note on it, newest first."""

    instrument_id: str
    sort: str
    status: str
    standing: str
    doubt: str
    limit: Fraction
    told: tuple[PipeAdvice, ...] = ()


@dataclass(frozen=True, slots=True)
class LaserView:
    """The lasers of a job; ``today`` is the day as the book writes it."""

    figures: Figures = field(default_factory=Figures)
    lasers: tuple[LaserCard, ...] = ()
    today: str = ""

    def laser(self, instrument_id: str) -> LaserCard | None:
        """The laser of a name; the only one where none is named."""
        if not instrument_id and len(self.lasers) == 1:
            return self.lasers[0]
        return next((one for one in self.lasers if one.instrument_id == instrument_id), None)


def instrument_form(view: LaserView) -> Form:
    """Questions about a laser or level that comes on the job."""
    sorts = tuple(Option(key, say(words)) for key, words in SORT_WORDS.items())
    names = tuple(Option(name, name) for name in _free_names(view))
    seconds, days = seconds_field(), days_field()
    limit = peg_limit_field(view.figures)
    figure = AnswerKind.FIGURE
    return Form(
        name="instrument",
        title=say("Add the laser"),
        steps=(
            Step("what", say("Sort"), say("What is it?"), AnswerKind.CHOOSE, sorts, True),
            Step(
                "name",
                say("Name"),
                say("Which name or number is on it?"),
                AnswerKind.TEXT,
                names,
                True,
            ),
            Step("seconds", say("Stated error"), seconds.name, figure, spec=seconds),
            Step("limit", say("Peg test limit"), limit.name, figure, spec=limit),
            Step("days", say("Calibrated"), days.name, figure, spec=days),
        ),
        command=lambda answers: AddInstrument(
            instrument_id=answers["name"],
            what=answers["what"],
            plane_asec10=value_of(answers, "seconds"),
            peg_limit_millionths=value_of(answers, "limit"),
            calibrated_days_ago=value_of(answers, "days"),
        ),
        back="setup",
    )


def event_form(instrument_id: str) -> Form:
    """Questions about what befell a laser."""
    events = tuple(Option(key, say(words)) for key, words in EVENT_WORDS.items())
    return Form(
        name=f"event/{instrument_id}",
        title=instrument_id,
        steps=(
            Step("what", say("Event"), say("What befell it?"), AnswerKind.CHOOSE, events, True),
            Step("note", say("Remarks"), say("Remarks"), AnswerKind.TEXT),
        ),
        command=lambda answers: LogInstrumentEvent(
            instrument_id=instrument_id, what=answers["what"], note=text_of(answers, "note")
        ),
        back="laser",
    )


def _free_names(view: LaserView) -> list[str]:
    """Names that a crew would call it by, those in use left out."""
    taken = {one.instrument_id for one in view.lasers}
    free = [say("laser {number}", number=number) for number in range(1, len(taken) + 3)]
    return [name for name in free if name not in taken][:2]


def key_words(cards: tuple[LaserCard, ...], instrument_id: str) -> tuple[str, str]:
    """Words and value of the setup's key that leads to the laser and its peg test."""
    if not cards:
        return say("its peg test"), say("Add the laser")
    card = next((one for one in cards if one.instrument_id == instrument_id), None)
    return say("its peg test"), card.standing if card else say("choose")


def proof_words(card: LaserCard) -> tuple[str, str]:
    """State and sentence of a laser as it stands today."""
    if not card.doubt:
        return Status.OK, card.standing
    return Status.CHECK, say("peg test wanted: {doubt}", doubt=say(card.doubt))
