"""The questions after the work: rain, how the ground is seen, sand topped up, repairs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from crewapp.commands.after_rain import LogRain, LogSurfaceCondition
from crewapp.kit.input.day_fields import clock_field, date_field, date_options, rain_field
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
from crewapp.kit.input.list_rows import NamedItem
from crewapp.kit.input.moments import instant_of, last_instant_at, wall_time_of
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.words.dates import full_day
from crewapp.words.translate import say, translate_later
from models.units import show_time_of_day

NOT_KNOWN = -1
"""Answer to when a rain began that nobody saw begin."""

GAUGES = (translate_later("the crew's gauge"), translate_later("the owner's gauge"))


def options_of(names: tuple[NamedItem, ...]) -> tuple[Option, ...]:
    """Return names to tap."""
    return tuple(Option(one.name, one.text) for one in names)


def names_step(
    field: str, name: str, question: str, names: tuple[NamedItem, ...]
) -> tuple[Step, ...]:
    """Ask for one of some names; not where there is one alone."""
    if len(names) == 1:
        return ()
    return (Step(field, name, question, AnswerKind.CHOOSE, options_of(names), True),)


def surface_steps(view: AfterRainView) -> tuple[Step, ...]:
    """Ask for the surface, unless there is one alone."""
    return names_step("surface", say("Surface"), say("Which surface?"), view.surfaces)


def surface_of(answers: Answers, view: AfterRainView) -> str:
    """Return the surface answered, or the one there is."""
    alone = view.surfaces[0].name if len(view.surfaces) == 1 else ""
    return str(answers.get("surface") or alone)


def plot_step(answers: Answers, view: AfterRainView, name: str, question: str) -> Step:
    """Question about a part of the surface, by words used before or written anew."""
    before = view.plots.get(surface_of(answers, view), ())
    return Step("plot", name, question, AnswerKind.TEXT, tuple(Option(one, one) for one in before))


def rain_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about a rain: what the gauge holds, when it stopped and when it began."""
    depth = replace(rain_field(view.figures), name=say("Rain in the gauge"))
    day = date_field(say("Day it stopped"), view.today, view.figures.is_us)
    began, stopped = rain_times(answers, view)
    return Form(
        name="rain",
        title=say("Rain"),
        steps=(
            Step("depth", say("Rain"), depth.name, AnswerKind.FIGURE, (), True, spec=depth),
            _stopped(view, stopped),
            _began(view, began),
            Step(
                "day",
                say("Day it stopped"),
                say("Which day did it stop?"),
                AnswerKind.FIGURE,
                date_options(view.today, (0, -1, -2, -3, -4), view.figures.is_us),
                spec=day,
            ),
            Step(
                "gauge",
                say("Gauge"),
                say("Which gauge?"),
                AnswerKind.TEXT,
                tuple(Option(one, one) for one in view.gauges)
                or tuple(Option(say(one), say(one)) for one in GAUGES),
            ),
        ),
        command=lambda given_answers: _rain(given_answers, view),
        back="home",
    )


def _stopped(view: AfterRainView, stopped: int | None) -> Step:
    _, now_min = wall_time_of(view.now_ms, view.zone)
    now = show_time_of_day(now_min, halves=view.figures.is_us)
    return Step(
        "stopped",
        say("Stopped"),
        say("When did it stop?"),
        AnswerKind.FIGURE,
        (Option(now_min, say("Just now"), now),),
        True,
        spec=_with_day(clock_field(say("When did it stop?"), view.figures.is_us), stopped, view),
    )


def _began(view: AfterRainView, began: int | None) -> Step:
    return Step(
        "began",
        say("Began"),
        say("When did it begin?"),
        AnswerKind.FIGURE,
        (Option(NOT_KNOWN, say("Not known"), say("then no estimate")),),
        True,
        spec=_time_or_not(
            _with_day(clock_field(say("When did it begin?"), view.figures.is_us), began, view)
        ),
    )


def _time_or_not(spec: FieldSpec) -> FieldSpec:
    def show(minutes: int) -> str:
        return say("not known") if minutes == NOT_KNOWN else spec.show(minutes)

    return FieldSpec(spec.name, spec.unit, spec.grammar, spec.parse, show, bands=spec.bands)


def _with_day(spec: FieldSpec, at_ms: int | None, view: AfterRainView) -> FieldSpec:
    """Show a time with the day it was understood to be on, where that is not today."""
    if at_ms is None:
        return spec
    day = wall_time_of(at_ms, view.zone)[0]
    days_ago = date.fromisoformat(view.today).toordinal() - date.fromisoformat(day).toordinal()
    if not days_ago:
        return spec
    told = say("yesterday") if days_ago == 1 else full_day(day, view.figures.is_us)
    show = spec.show
    return replace(spec, show=lambda minutes: say("{time}, {day}", time=show(minutes), day=told))


def rain_times(answers: Answers, view: AfterRainView) -> tuple[int | None, int | None]:
    """Return when a rain began and stopped, each the last such time there was."""
    stopped_min, began_min = value_of(answers, "stopped"), value_of(answers, "began")
    if stopped_min is None:
        return None, None
    day = value_of(answers, "day")
    if day is None:
        stopped = last_instant_at(stopped_min, view.zone, view.now_ms)
    else:
        stopped = instant_of(date.fromordinal(day).isoformat(), stopped_min, view.zone)
    if began_min is None or began_min == NOT_KNOWN:
        return None, stopped
    return last_instant_at(began_min, view.zone, stopped), stopped


def _rain(answers: Answers, view: AfterRainView) -> LogRain:
    began, stopped = rain_times(answers, view)
    assert stopped is not None  # the form asks for it
    return LogRain(
        depth_nm=figure_of(answers, "depth"),
        depth_typed=typed_of(answers, "depth"),
        began_ms=began,
        stopped_ms=stopped,
        gauge=text_of(answers, "gauge"),
    )


def seen_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about a look at the ground: where, and when; its part has the three answers."""
    at = clock_field(say("Seen at"), view.figures.is_us)
    return Form(
        name="seen",
        title=say("How it looks"),
        steps=(
            *surface_steps(view),
            plot_step(
                answers, view, say("Part of it"), say("Which part? One small plot tells most")
            ),
            Step("at", say("Seen at"), at.name, AnswerKind.FIGURE, spec=at),
        ),
        command=lambda given_answers: _seen(given_answers, view),
        back="looks",
    )


def _seen(answers: Answers, view: AfterRainView) -> LogSurfaceCondition:
    at = value_of(answers, "at")
    return LogSurfaceCondition(
        surface_id=surface_of(answers, view),
        condition="",  # one of three keys says it
        plot=text_of(answers, "plot"),
        seen_ms=None if at is None else last_instant_at(at, view.zone, view.now_ms),
    )
