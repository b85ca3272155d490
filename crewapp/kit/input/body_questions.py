"""Questions of a form, made from the marks at the fields of a body."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from crewapp.kit.input.fields import count_field
from crewapp.kit.input.forms import (
    AnswerKind,
    Answers,
    Form,
    Option,
    Step,
    has_answer,
    typed_of,
    value_of,
)
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.kit.input.work_fields import run_field, shift_field, volume_field, weight_field
from crewapp.words.translate import say
from models.entries.shows import MarkedField, Quantity
from models.units.job_units import Figures

_WAYS = {
    Quantity.CHOICE: AnswerKind.CHOOSE,
    Quantity.NAME: AnswerKind.CHOOSE,
    Quantity.WORDS: AnswerKind.TEXT,
    Quantity.YES_NO: AnswerKind.CHOOSE,
}
_SPECS: dict[Quantity, Callable[[Figures, str], FieldSpec]] = {
    Quantity.DEPTH: shift_field,
    Quantity.LENGTH: run_field,
    Quantity.VOLUME: volume_field,
    Quantity.MASS: weight_field,
    Quantity.MINUTES: lambda _, name: count_field(name, "min", Bands(Band(0, 24 * 60)), 4),
}


@dataclass(frozen=True, slots=True)
class Question:
    """A question about a field; ``typed`` is the field that a figure's text as typed goes to."""

    step: Step
    typed: str = ""
    is_yes_no: bool = False

    def fields(self, answers: Answers) -> dict[str, Any]:
        """Return the fields that were answered, as the body stores them."""
        name = self.step.field
        if not has_answer(answers, self.step):
            return {}
        if self.is_yes_no:
            return {name: bool(answers[name])}
        if self.step.way is not AnswerKind.FIGURE:
            return {name: answers[name]}
        typed = {self.typed: typed_of(answers, name)} if self.typed else {}
        return {name: value_of(answers, name), **typed}

    def form(self, title: str, back: str) -> Form:
        """Return a form with this question alone, done once it is answered."""
        return Form(
            name=self.step.field,
            title=title,
            steps=(self.step,),
            ink=say("Done"),
            at_once=True,
            back=back,
        )


def question_of(field: MarkedField, figures: Figures, names: Sequence[str] = ()) -> Question:
    """Ask for a field as it says; ``names`` are offered as answers where it takes a name."""
    shows = field.shows
    label, is_yes_no = say(shows.label), shows.quantity is Quantity.YES_NO
    options = [Option(name, name) for name in names]
    options += [Option(one, say(one.replace("_", " "))) for one in field.options]
    options += [Option(1, say("yes")), Option(0, say("no"))] if is_yes_no else []
    step = Step(
        field.name,
        label,
        say(shows.asks),
        _WAYS.get(shows.quantity, AnswerKind.FIGURE),
        tuple(options),
        is_needed=True,
        can_write=shows.quantity is Quantity.NAME,
        spec=_SPECS[shows.quantity](figures, label) if shows.quantity in _SPECS else None,
    )
    return Question(step, field.typed, is_yes_no)
