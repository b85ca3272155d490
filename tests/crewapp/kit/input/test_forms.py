"""A form asks its needed questions in order and hands over what was answered."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.day import LogHours, LogWeather
from crewapp.kit.input.forms import AnswerKind, Form, Option, Step, append_statement, toggle_value
from crewapp.kit.input.list_rows import NamedItem, shorten
from crewapp.pages.day.forms.events import hit_caution
from crewapp.pages.day.forms.forms import DELAY_AGAIN, NOW, form_named, running_delay
from crewapp.pages.day.view import DayView, Worker

FACE = DayView(
    has_job=True,
    day="2026-05-11",
    today="2026-05-11",
    author="Ana",
    owner="Olga Invented",
    workers=(Worker("person", "Ana", "Ana Invented, foreman"), Worker("machine", "twin", "twin")),
    people=(NamedItem("Ben", "Ben Madeup"), NamedItem("Ana", "Ana Invented, foreman")),
    places=(NamedItem("G7", "Green seven"),),
)
NAMES = (
    "weather",
    "delay",
    DELAY_AGAIN,
    "utility",
    "note",
    "photo",
    "tomorrow",
    "ticket",
    "reopen",
    "hours/person/Ana",
    "hours/machine/twin",
    "sign/true_record",
    "sign/received",
    "sign/agreed",
)


def made(name: str) -> Form:
    """Return a form of the day."""
    form = form_named(name, FACE)
    assert form is not None
    return form


@pytest.mark.parametrize("name", NAMES)
def test_form_knows_its_name_and_begins_with_a_question(name: str) -> None:
    """A form found by its name bears it, so that its answers are found again."""
    form = made(name)

    assert form.name == name
    assert form.next_field({}) == form.steps[0].field
    assert not form.is_ready({})


@pytest.mark.parametrize(
    "name", ["", "dance", "hours/person/Nobody", "hours/dog/Ana", "sign/never"]
)
def test_unknown_form_is_none(name: str) -> None:
    """A draft from another job or version names a form that is not there."""
    assert form_named(name, FACE) is None


@pytest.mark.parametrize("name", NAMES)
def test_no_option_is_chosen_beforehand(name: str) -> None:
    """Options of a question differ, and none is taken without a tap."""
    for step in made(name).steps:
        values = [option.value for option in step.options]
        assert len(values) == len(set(values))
        assert step.answer_text(None) == ""


def test_questions_come_in_order() -> None:
    """The first needed question without an answer is next; then the form is ready."""
    form = made("weather")
    assert form.next_field({"ground": "wet"}) == "sky"
    assert form.next_field({"sky": "rain"}) == "ground"

    answers = {"sky": "rain", "ground": "wet"}
    assert form.is_ready(answers)
    assert form.command(answers) == LogWeather(sky="rain", ground="wet")


def test_hours_hold_only_what_was_given() -> None:
    """Standing by that nobody told is not written as a figure of its own."""
    command = made("hours/machine/twin").command({"run": {"value": 360, "text": "6 h"}})

    assert command == LogHours(of="machine", who="twin", run_min=360, idle_min=0, down_min=0)


def test_delay_put_right_has_no_running_answers() -> None:
    """Only a delay that runs can end now."""
    running = made("delay").step("lost")
    again = made(DELAY_AGAIN).step("lost")
    assert running is not None
    assert again is not None

    assert NOW in {option.value for option in running.options}
    assert all(isinstance(option.value, int) for option in again.options)


def test_running_delay_counts_whole_minutes() -> None:
    """Since the cause was tapped; a clock turned back counts nothing."""
    answers = {"cause": "rain", "since": 60_000}

    assert running_delay(answers, 60_000 + 61 * 60_000 + 59_000) == "runs 1 h 1 min"
    assert running_delay(answers, 0) == "runs 0 min"
    assert running_delay({"cause": "rain"}, 0) == ""


def test_danger_is_told_for_a_hit_until_it_was_read() -> None:
    """A find has none; a hit has one that is to be read first."""
    form = made("utility")

    assert hit_caution({"event": "found"}) == ""
    assert form.is_warning({"event": "hit"})
    assert not form.is_warning({"event": "hit", "warned": True})


def test_signers_begin_with_who_writes() -> None:
    """The foreman's own name is the first to tap; the owner's is the only one."""
    record, receipt = made("sign/true_record").steps[0], made("sign/received").steps[0]

    assert [option.text for option in record.options] == ["Ana Invented", "Ben Madeup"]
    assert [option.text for option in receipt.options] == ["Olga Invented"]


def test_answers_are_said_in_words() -> None:
    """Each way of answering shows what will be inked."""
    options = (Option("a", "one"), Option("b", "two"))

    def said(way: AnswerKind, answer: Any) -> str:
        return Step("x", "X", "?", way, options).answer_text(answer)

    assert said(AnswerKind.CHOOSE, "b") == "two"
    assert said(AnswerKind.CHOOSE, "written by hand") == "written by hand"
    assert said(AnswerKind.SEVERAL, ["a", "b"]) == "one, two"
    assert said(AnswerKind.YES, True) == "yes"


def test_words_are_put_together() -> None:
    """Chips are short statements one after the other; a choice is taken out by a second tap."""
    assert append_statement("", "Gate locked") == "Gate locked"
    assert append_statement("Gate locked. ", "Owner told") == "Gate locked. Owner told"
    assert toggle_value(toggle_value([], "a"), "b") == ["a", "b"]
    assert toggle_value(["a", "b"], "a") == ["b"]


def test_short_text_ends_at_a_word() -> None:
    """A list shows the beginning; the length is never more than was asked for."""
    assert shorten("as it is", 20) == "as it is"
    assert shorten("the sand pile is to be covered", 20) == "the sand pile is ..."
    assert len(shorten("x" * 99, 20)) <= 20
