"""The questions about what was met, noted, pictured, is needed next, or is put right."""

from __future__ import annotations

from crewapp.commands.day import LogNote, LogUtility, PlanTomorrow, ReopenDay
from crewapp.commands.photos import KeepPhoto
from crewapp.kit.input.forms import (
    AnswerKind,
    Answers,
    Form,
    Option,
    Step,
    text_of,
    typed_of,
    value_of,
)
from crewapp.kit.input.position import position_of, position_step
from crewapp.kit.input.work_fields import depth_field, weight_field
from crewapp.pages.day.forms import answers as words
from crewapp.pages.day.view import DayView
from crewapp.words.dates import full_day
from crewapp.words.translate import say


def utility_form(view: DayView) -> Form:
    """Questions about a pipe, cable or stone met in the ground, whole or hit."""
    return Form(
        name="utility",
        title=say("Found or hit"),
        steps=_met_steps(view),
        command=_log_utility,
        caution=hit_caution,
    )


def _log_utility(answers: Answers) -> LogUtility:
    position = position_of(answers)
    return LogUtility(
        event=answers["event"],
        what=answers["what"],
        where=answers["where"],
        depth_nm=value_of(answers, "depth"),
        depth_typed=typed_of(answers, "depth"),
        action=text_of(answers, "action"),
        placed_by=position.placed_by,
        lat_ndeg=position.lat_ndeg,
        lon_ndeg=position.lon_ndeg,
        placed_sd_nm=position.placed_sd_nm,
    )


def _met_steps(view: DayView) -> tuple[Step, ...]:
    met, done = words.text_options(words.MET), words.text_options(words.DONE_ABOUT)
    events = (
        Option("found", say("Found"), say("whole")),
        Option("hit", say("Hit"), say("cut, crushed or pulled")),
    )
    where = say("Where? A stranger must find it")
    depth = depth_field(view.figures, say("Depth below turf"), None)
    choose, text = AnswerKind.CHOOSE, AnswerKind.TEXT
    return (
        Step("event", say("Event"), say("Found whole, or hit?"), choose, events, True),
        Step("what", say("What"), say("What is it?"), choose, met, True, can_write=True),
        Step("where", say("Where"), where, text, place_options(view), True),
        position_step(),
        Step("depth", say("Depth"), depth.name, AnswerKind.FIGURE, spec=depth),
        Step("action", say("Action"), say("What was done about it?"), text, done),
    )


def hit_caution(answers: Answers) -> str:
    """Return what to do first after something was hit."""
    if answers.get("event") != "hit":
        return ""
    return say(
        "Stop all machines. Keep people away. Gas or electric: leave on foot, touch nothing, "
        "call the emergency number, then the utility. Do not cover it."
    )


def note_form(view: DayView) -> Form:
    """Questions of a note; one that needs the owner stands at the top of the sheet."""
    return Form(
        name="note",
        title=say("Note"),
        steps=(
            Step(
                "text",
                say("Note"),
                say("What is to be noted?"),
                AnswerKind.TEXT,
                words.text_options(words.NOTES),
                True,
            ),
            Step("needs_owner", say("Needs the owner"), "", AnswerKind.YES),
        ),
        command=lambda answers: LogNote(
            text=answers["text"], needs_owner=bool(answers.get("needs_owner"))
        ),
    )


def photo_form(view: DayView) -> Form:
    """Questions about a photo: what it shows and where, then the file."""
    return Form(
        name="photo",
        title=say("Photo"),
        steps=(
            Step(
                "shows",
                say("Shows"),
                say("What does it show?"),
                AnswerKind.TEXT,
                words.text_options(words.SHOWS),
                True,
            ),
            Step(
                "where",
                say("Where"),
                say("Where was it taken?"),
                AnswerKind.TEXT,
                place_options(view),
            ),
            Step(
                "looking",
                say("Looking"),
                say("Which way does it look?"),
                AnswerKind.CHOOSE,
                words.text_options(words.LOOKING),
            ),
        ),
        command=lambda answers: KeepPhoto(
            path="",  # the file is chosen once the form is filled in
            caption=", ".join(filter(None, (answers["shows"], answers.get("looking")))),
            where=text_of(answers, "where"),
        ),
        ink=say("Choose the photo"),
    )


def tomorrow_form(view: DayView) -> Form:
    """Questions about tomorrow: work, sand to call in, ground that must be free."""
    sand = weight_field(view.figures, say("Sand to call in"))
    return Form(
        name="tomorrow",
        title=say("Tomorrow"),
        steps=(
            Step(
                "work",
                say("Work"),
                say("What is to be done tomorrow?"),
                AnswerKind.TEXT,
                (*words.text_options(words.WORK), *place_options(view)),
                True,
            ),
            Step("sand", say("Sand"), sand.name, AnswerKind.FIGURE, spec=sand),
            Step(
                "clear",
                say("Must be clear"),
                say("What must be clear for the crew?"),
                AnswerKind.TEXT,
                (*place_options(view), *words.text_options(words.CLEAR)),
            ),
        ),
        command=lambda answers: PlanTomorrow(
            work=answers["work"],
            sand_ug=value_of(answers, "sand"),
            sand_typed=typed_of(answers, "sand"),
            must_be_clear=text_of(answers, "clear"),
        ),
    )


def reopen_form(view: DayView) -> Form:
    """Question why a closed day is taken up again."""
    return Form(
        name="reopen",
        title=say("Reopen {day}", day=full_day(view.day, view.figures.is_us)),
        steps=(
            Step(
                "why",
                say("Reason"),
                say("Why is it reopened?"),
                AnswerKind.TEXT,
                words.text_options(words.REOPENED),
                True,
            ),
        ),
        command=lambda answers: ReopenDay(day=view.day, why=answers["why"]),
        ink=say("Reopen the day"),
        back="close",
    )


def place_options(view: DayView) -> tuple[Option, ...]:
    """Return the job's surfaces and collectors, to tap."""
    return tuple(Option(place.text, place.text) for place in view.places)
