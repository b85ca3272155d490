"""The questions of the day screen: weather and delay here, the rest by name."""

from __future__ import annotations

from collections.abc import Callable

from crewapp.commands.day import LogDelay, LogWeather
from crewapp.kit.input.day_fields import (
    LOST_STEPS,
    clock_field,
    hour_options,
    lost_field,
    rain_field,
    temperature_field,
)
from crewapp.kit.input.forms import (
    AnswerKind,
    Answers,
    Form,
    Option,
    Step,
    figure_of,
    text_of,
    typed_of,
    value_of,
)
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.pages.day.forms import answers as words
from crewapp.pages.day.forms.events import (
    note_form,
    photo_form,
    reopen_form,
    tomorrow_form,
    utility_form,
)
from crewapp.pages.day.forms.hours import hours_form
from crewapp.pages.day.forms.sign import sign_form
from crewapp.pages.day.forms.ticket import ticket_form
from crewapp.pages.day.view import DayView
from crewapp.words.translate import say
from models.units import show_duration

DELAY_AGAIN = "delay/again"
NOW, BEGAN, NONE = "now", "began", "none"
"""Answers to how long that are no figure."""


def form_named(name: str, view: DayView) -> Form | None:
    """Return the form of a name, for the day as it stands; None for a name not known."""
    kind, _, rest = name.partition("/")
    if kind == "hours":
        return hours_form(rest, view)
    if kind == "sign":
        return sign_form(rest, view)
    if name == DELAY_AGAIN:
        return delay_form(view, is_again=True)
    made = _FORMS.get(kind)
    return made(view) if made else None


def weather_form(view: DayView) -> Form:
    """Questions about weather and ground: two taps, and figures for who has them."""
    low = temperature_field(view.figures, say("Lowest temperature"))
    high = temperature_field(view.figures, say("Highest temperature"))
    figure = AnswerKind.FIGURE
    return Form(
        name="weather",
        title=say("Weather and ground"),
        steps=(
            Step(
                "sky",
                say("Sky"),
                say("How is the sky?"),
                AnswerKind.CHOOSE,
                words.name_options(words.SKY),
                True,
            ),
            Step(
                "ground",
                say("Ground"),
                say("How is the ground?"),
                AnswerKind.CHOOSE,
                words.name_options(words.GROUND),
                True,
            ),
            Step("low", say("Coldest"), low.name, figure, spec=low),
            Step("high", say("Warmest"), high.name, figure, spec=high),
            Step(
                "rain",
                say("Rain"),
                say("Rain since last time"),
                figure,
                spec=rain_field(view.figures),
            ),
            Step(
                "wind",
                say("Wind"),
                say("How is the wind?"),
                AnswerKind.CHOOSE,
                words.text_options(words.WIND),
            ),
        ),
        command=lambda answers: _weather(answers, low),
    )


def _weather(answers: Answers, degrees: FieldSpec) -> LogWeather:
    read = [value_of(answers, name) for name in ("low", "high")]
    return LogWeather(
        sky=answers["sky"],
        ground=answers["ground"],
        low_tenths_c=read[0],
        high_tenths_c=read[1],
        temperature_typed=" - ".join(degrees.show(one) for one in read if one is not None),
        rain_nm=value_of(answers, "rain"),
        rain_typed=typed_of(answers, "rain"),
        wind=text_of(answers, "wind"),
    )


def delay_form(view: DayView, is_again: bool = False) -> Form:
    """Questions about time lost: its cause starts the count, a second tap ends it.

    One that is put right runs no more: ``is_again`` leaves its length to be said.
    """
    began = clock_field(say("Delay began at"), view.figures.is_us)
    own = (
        Option(NOW, say("Work goes on now")),
        Option(BEGAN, say("Began earlier")),
        Option(NONE, say("No delay")),
    )
    lengths = hour_options(LOST_STEPS)
    return Form(
        name=DELAY_AGAIN if is_again else "delay",
        title=say("Delay"),
        steps=(
            Step(
                "cause",
                say("Cause"),
                say("Why has work stopped?"),
                AnswerKind.CHOOSE,
                words.text_options(words.CAUSES),
                True,
                can_write=True,
            ),
            Step(
                "lost",
                say("Lost"),
                say("How long did it cost?"),
                AnswerKind.FIGURE,
                lengths if is_again else (own[0], *lengths, *own[1:]),
                True,
                spec=lost_field(),
            ),
            Step(BEGAN, say("Began"), say("When did it begin?"), AnswerKind.FIGURE, spec=began),
        ),
        command=lambda answers: LogDelay(
            cause=answers["cause"],
            lost_min=figure_of(answers, "lost"),
            start_min=value_of(answers, BEGAN),
        ),
        at_once=True,
    )


def running_delay(answers: Answers, now_ms: int) -> str:
    """Say for how long a delay runs; "" when none does."""
    if "cause" not in answers or "since" not in answers:
        return ""
    gone_min = max(now_ms - int(answers["since"]), 0) // 60_000
    return say("runs {time}", time=show_duration(gone_min))


_FORMS: dict[str, Callable[[DayView], Form]] = {
    "weather": weather_form,
    "delay": delay_form,
    "utility": utility_form,
    "note": note_form,
    "photo": photo_form,
    "tomorrow": tomorrow_form,
    "ticket": ticket_form,
    "reopen": reopen_form,
}
FORM_OF_KIND = {
    "weather": "weather",
    "delay": "delay/again",
    "utility": "utility",
    "note": "note",
    "tomorrow": "tomorrow",
}
"""Kinds of entry that are corrected by answering their questions anew."""
