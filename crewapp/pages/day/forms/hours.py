"""Hours of a person or a machine: each figure takes a tap of its own, none is offered as read."""

from __future__ import annotations

from crewapp.commands.day import LogHours
from crewapp.kit.input.day_fields import HOUR_STEPS, RUN_STEPS, hour_options, hours_field
from crewapp.kit.input.forms import AnswerKind, Answers, Form, Step, figure_of, value_of
from crewapp.pages.day.view import DayView
from crewapp.words.translate import say

FIGURES = ("run", "idle", "down")


def hours_form(rest: str, view: DayView) -> Form | None:
    """Return the form of ``person/Ana`` or ``machine/trencher``."""
    of, _, who = rest.partition("/")
    worker = view.worker(of, who)
    if worker is None:
        return None
    if of == "person":
        return _person(who, worker.name.partition(",")[0])
    return _machine(who, worker.name)


def _person(who: str, name: str) -> Form:
    spec = hours_field(say("Hours of {name}", name=name))
    worked = Step(
        "run",
        say("Worked"),
        say("How long did {name} work?", name=name),
        AnswerKind.FIGURE,
        hour_options(HOUR_STEPS),
        True,
        spec=spec,
    )
    return Form(
        name=f"hours/person/{who}",
        title=name,
        steps=(worked,),
        command=lambda answers: _log_hours("person", who, answers),
        at_once=True,
        back="hours",
    )


def _machine(who: str, name: str) -> Form:
    asks = {
        "run": (say("Running"), say("How long did {name} run?", name=name)),
        "idle": (say("Standing by"), say("How long did {name} stand by?", name=name)),
        "down": (say("Broken down"), say("How long was {name} broken down?", name=name)),
    }
    steps = tuple(
        Step(
            field,
            word,
            question,
            AnswerKind.FIGURE,
            hour_options(RUN_STEPS),
            field == "run",
            spec=hours_field(word),
        )
        for field, (word, question) in asks.items()
    )
    return Form(
        name=f"hours/machine/{who}",
        title=name,
        steps=steps,
        command=lambda answers: _log_hours("machine", who, answers),
        pad_place=name,
        back="hours",
    )


def _log_hours(of: str, who: str, answers: Answers) -> LogHours:
    return LogHours(
        of=of,
        who=who,
        run_min=figure_of(answers, "run"),
        idle_min=value_of(answers, "idle") or 0,
        down_min=value_of(answers, "down") or 0,
    )
