"""A question about a field of a body, by how the field says that it is asked for."""

from __future__ import annotations

from typing import Annotated, Any, ClassVar, Literal

import pytest
from pydantic import Field

from crewapp.kit.input.body_questions import question_of
from crewapp.kit.input.forms import AnswerKind
from models.entries.body import Body
from models.entries.shows import MarkedField, Quantity, Shows, marked_fields
from models.plan.field_types import Span, Typed
from models.units.job_units import Figures


def asked(quantity: Quantity) -> Shows:
    """A mark that asks for something."""
    return Shows(label="It", quantity=quantity, column="it", asks="What is it?")


class Bench(Body):
    """A body with a field of every way of asking."""

    kind: ClassVar[str] = "bench"

    who: Annotated[str, asked(Quantity.NAME)] = ""
    said: Annotated[str, asked(Quantity.WORDS)] = ""
    soil: Annotated[Literal["dry", "very_wet"], asked(Quantity.CHOICE)] = "dry"
    is_done: Annotated[bool, asked(Quantity.YES_NO)] = False
    depth_nm: Annotated[Span | None, asked(Quantity.DEPTH)] = Field(default=None)
    depth_typed: Typed = ""
    run_min: Annotated[int, asked(Quantity.MINUTES)] = 0


FIELDS: dict[str, MarkedField] = {field.name: field for field in marked_fields(Bench)}
INCHES: dict[str, Any] = {"value": 254_000_000, "text": "10"}


@pytest.mark.parametrize(
    ("name", "way", "answer", "fields"),
    [
        ("who", AnswerKind.CHOOSE, "Ash", {"who": "Ash"}),
        ("said", AnswerKind.TEXT, "by the gate", {"said": "by the gate"}),
        ("soil", AnswerKind.CHOOSE, "very_wet", {"soil": "very_wet"}),
        ("is_done", AnswerKind.CHOOSE, 0, {"is_done": False}),
        ("is_done", AnswerKind.CHOOSE, 1, {"is_done": True}),
        ("depth_nm", AnswerKind.FIGURE, INCHES, {"depth_nm": 254_000_000, "depth_typed": "10"}),
        ("run_min", AnswerKind.FIGURE, {"value": 5, "text": "5"}, {"run_min": 5}),
        ("who", AnswerKind.CHOOSE, "", {}),
        ("depth_nm", AnswerKind.FIGURE, None, {}),
    ],
)
def test_answer_becomes_the_field(
    name: str, way: AnswerKind, answer: Any, fields: dict[str, Any]
) -> None:
    """Each kind of thing is asked for in its way, and what was not answered is no field."""
    question = question_of(FIELDS[name], Figures(), ["Ash"])

    assert (question.step.way, question.step.name, question.step.question) == (
        way,
        "It",
        "What is it?",
    )
    assert (question.step.spec is None) == (way is not AnswerKind.FIGURE)
    assert question.fields({name: answer}) == fields


def test_answers_to_choose_from() -> None:
    """Names that the job has, and one may be written; or the choices of the field."""
    who, soil = (
        question_of(FIELDS[name], Figures(), names)
        for name, names in (
            ("who", ["Ash", "Wren"]),
            ("soil", []),
        )
    )

    assert [(one.value, one.text) for one in who.step.options] == [("Ash", "Ash"), ("Wren", "Wren")]
    assert who.step.can_write
    assert [one.text for one in soil.step.options] == ["dry", "very wet"]


def test_form_is_done_once_it_is_answered() -> None:
    """It asks the one thing at once and leads back to where it was begun."""
    form = question_of(FIELDS["who"], Figures()).form("For the next pass", "more")

    assert (form.next_field({}), form.next_field({"who": "Ash"})) == ("who", "")
    assert (form.at_once, form.back, form.is_ready({"who": "Ash"})) == (True, "more", True)
