"""A thing to log as a run of questions, one at a time, each answered by a tap.

Pure: which question is next, what has been answered, and what of it goes into the
book. Answers are plain values, so that a half-filled form survives a kill.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from crewapp.commands.command import Command
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.words.translate import say

Answers = Mapping[str, Any]
WARNED = "warned"  # set once a danger was read


class AnswerKind(StrEnum):
    """How a question is answered."""

    CHOOSE = "choose"  # one of its choices
    SEVERAL = "several"  # any of its choices
    FIGURE = "figure"  # a chip, or the number pad
    TEXT = "text"  # words, put together from choices or typed
    YES = "yes"  # set or not set, by one tap on the summary
    POSITION = "position"  # where the tablet is, asked of it by one tap on the summary


@dataclass(frozen=True, slots=True)
class Option:
    """Answer to tap: its name or figure, the words on it, a note under them."""

    value: str | int
    text: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Step:
    """Question of a form. ``spec`` is the pad's field where a figure may be typed."""

    field: str
    name: str
    question: str
    way: AnswerKind = AnswerKind.CHOOSE
    options: tuple[Option, ...] = ()
    is_needed: bool = False
    can_write: bool = False
    spec: FieldSpec | None = None

    def answer_text(self, answer: Any) -> str:
        """Return the words of an answer."""
        if answer is None:
            return ""
        if self.way is AnswerKind.POSITION:
            return str(answer["text"])
        if self.way is AnswerKind.YES:
            return say("yes") if answer else say("no")
        if self.way is AnswerKind.SEVERAL:
            return ", ".join(self.text_of(one) for one in answer)
        if self.way is AnswerKind.FIGURE and self.spec is not None:
            return self.spec.show(int(answer["value"]))
        return self.text_of(answer)

    def text_of(self, value: Any) -> str:
        """Return the words on an option, or the value itself where it was written."""
        return next((one.text for one in self.options if one.value == value), str(value))


@dataclass(frozen=True, slots=True)
class Form:
    """Questions, and the command that inks their answers.

    ``at_once`` inks as soon as the last needed question is answered; otherwise a
    summary comes first. ``command`` makes it of the answers; a
    form whose answers go with the command of another leaves it out. ``caution`` may name
    a danger to people that the answers tell of. ``back`` is the part it came from;
    ``pad_place`` says on the pad where a figure belongs, if its name does not.
    """

    name: str
    title: str
    steps: tuple[Step, ...]
    ink: str = ""
    at_once: bool = False
    back: str = "menu"
    pad_place: str = ""
    caution: Callable[[Answers], str] = lambda answers: ""
    command: Callable[[Answers], Command] = lambda answers: Command()

    def step(self, field: str) -> Step | None:
        """Return the question about a field."""
        return next((step for step in self.steps if step.field == field), None)

    def next_field(self, answers: Answers) -> str:
        """Return the first needed question without an answer, "" when there is none."""
        for step in self.steps:
            if step.is_needed and not has_answer(answers, step):
                return step.field
        return ""

    @property
    def is_single(self) -> bool:
        """Whether the form has one question, which then needs no summary."""
        return len(self.steps) == 1 and not self.at_once

    def is_warning(self, answers: Answers) -> bool:
        """Whether a danger is to be read before the next question."""
        return bool(self.caution(answers)) and not answers.get(WARNED)

    def is_ready(self, answers: Answers) -> bool:
        """Whether the form can be inked."""
        return not self.next_field(answers)


def has_answer(answers: Answers, step: Step) -> bool:
    """Whether a question was answered."""
    answer = answers.get(step.field)
    return answer is not None and answer not in ("", [])


def toggle_value(chosen: list[Any], value: Any) -> list[Any]:
    """Return the list with a value put in, or taken out if it was there."""
    return [one for one in chosen if one != value] if value in chosen else [*chosen, value]


def append_statement(text: str, words: str) -> str:
    """Return a text with words put to its end, as a list of short statements."""
    text = text.strip()
    return words if not text else f"{text.removesuffix('.')}. {words}"


def value_of(answers: Answers, field: str) -> int | None:
    """Return a figure that was given, or None."""
    answer = answers.get(field)
    return None if answer is None else int(answer["value"])


def figure_of(answers: Answers, field: str) -> int:
    """Return a figure that a question needed.

    Raises
    ------
    KeyError
        If it was not given: a form makes its command once all that it needs is answered.
    """
    return int(answers[field]["value"])


def text_of(answers: Answers, field: str) -> str:
    """Return a text or a choice that was given, "" when none was."""
    return str(answers.get(field) or "")


def typed_of(answers: Answers, field: str) -> str:
    """Return a figure as it was typed, "" when it was not."""
    answer = answers.get(field)
    return "" if answer is None else str(answer["text"])
