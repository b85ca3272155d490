"""The questions about ends: permanent points, and distances from them."""

from __future__ import annotations

from crewapp.commands.ties import AddPermanentPoint, LogOutlet, TieEnd
from crewapp.kit.input.fields import LengthEntry, length_field
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
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.input.plausible import Band, Bands
from crewapp.kit.input.position import position_of, position_step
from crewapp.kit.input.work_fields import LONGEST_NM
from crewapp.pages.after_rain.forms import names_step, surface_of, surface_steps
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.words.translate import say, translate_later
from models.entries.bodies.outlets import BAD_AIR
from models.units.job_units import Figures

POINTS = (
    translate_later("corner of a building"),
    translate_later("hydrant"),
    translate_later("manhole cover"),
    translate_later("post in concrete"),
    translate_later("curb"),
)
LINE_ENDS = {"line_start": translate_later("its start"), "line_end": translate_later("its end")}


def point_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about one more permanent point; its name is given by the book."""
    east, north = (
        _coordinate(view, say("East of the origin")),
        _coordinate(view, say("North of the origin")),
    )
    return Form(
        name="point",
        title=say("Permanent point"),
        steps=(
            Step(
                "where",
                say("What and where"),
                say("What will still stand there in ten years?"),
                AnswerKind.TEXT,
                tuple(Option(say(one), say(one)) for one in POINTS),
                True,
            ),
            Step("x", say("East, if known"), east.name, AnswerKind.FIGURE, spec=east),
            Step("y", say("North, if known"), north.name, AnswerKind.FIGURE, spec=north),
        ),
        command=lambda given_answers: AddPermanentPoint(
            where=given_answers["where"],
            x_nm=value_of(given_answers, "x"),
            y_nm=value_of(given_answers, "y"),
        ),
        back="ties",
    )


def distance_field(figures: Figures, name: str) -> FieldSpec:
    """Return the field of a taped distance: hundredths of a foot or of a metre."""
    entry = LengthEntry.FEET_HUNDREDTHS if figures.is_us else LengthEntry.METRE_HUNDREDTHS
    return length_field(name, entry, Bands(Band(1, LONGEST_NM)))


def _coordinate(view: AfterRainView, name: str) -> FieldSpec:
    us = view.figures.is_us
    entry = LengthEntry.FEET_HUNDREDTHS if us else LengthEntry.METRE_HUNDREDTHS
    return length_field(name, entry, is_signed=True)


def tie_form(rest: str, view: AfterRainView, answers: Answers) -> Form:
    """Questions about a distance to an end: ``collector_head/C1``, a line's end, or anything."""
    tied, _, name = rest.partition("/")
    steps: list[Step] = []
    if tied == "line":
        steps += _line_steps(view, answers)
    elif tied == "other":
        steps.append(
            Step("what", say("What"), say("What is it that is tied?"), AnswerKind.TEXT, (), True)
        )
    distance = distance_field(view.figures, say("Distance, taped level"))
    steps += [
        Step(
            "point", say("From"), say("From which point?"), AnswerKind.CHOOSE, _points(view), True
        ),
        Step(
            "distance", say("Distance"), distance.name, AnswerKind.FIGURE, (), True, spec=distance
        ),
    ]
    end = next((one.title for one in view.ends if one.key == rest), "")
    return Form(
        name=f"tie/{rest}",
        title=end or say("Tie"),
        steps=tuple(steps),
        command=lambda given_answers: _tie(tied, name, given_answers, view),
        back="ties",
        pad_place=end,
    )


def _points(view: AfterRainView) -> tuple[Option, ...]:
    return tuple(Option(one.name, f"{one.name}: {shorten(one.text, 36)}") for one in view.points)


def _line_steps(view: AfterRainView, answers: Answers) -> list[Step]:
    lines = view.lines.get(surface_of(answers, view), ())
    ends = tuple(Option(key, say(text)) for key, text in LINE_ENDS.items())
    return [
        *surface_steps(view),
        Step(
            "line",
            say("Line"),
            say("Which line?"),
            AnswerKind.CHOOSE,
            tuple(Option(one, one) for one in lines),
            True,
        ),
        Step("end", say("End"), say("Which end of it?"), AnswerKind.CHOOSE, ends, True),
    ]


def _tie(tied: str, name: str, answers: Answers, view: AfterRainView) -> TieEnd:
    is_line, is_other = tied == "line", tied == "other"
    return TieEnd(
        tied=answers["end"] if is_line else tied,
        point_id=answers["point"],
        distance_nm=figure_of(answers, "distance"),
        distance_typed=typed_of(answers, "distance"),
        surface_id=surface_of(answers, view) if is_line else "",
        line_id=answers["line"] if is_line else "",
        collector_id="" if is_line or is_other else name,
        what=answers["what"] if is_other else "",
    )


FLOWS = {
    "free": translate_later("runs free"),
    "slow": translate_later("runs slowly"),
    "blocked": translate_later("blocked"),
    "dry": translate_later("dry"),
}


def outlet_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about an outlet: whether it runs, its levels, and where the tablet stands."""
    names = view.outlet_names
    alone = names[0].name if len(names) == 1 else ""
    flows = tuple(Option(key, say(words)) for key, words in FLOWS.items())
    invert = _level(view, say("Invert of the outlet"))
    water = _level(view, say("Level of the water"))
    figure = AnswerKind.FIGURE

    def caution(given: Answers) -> str:
        return say(BAD_AIR) if (given.get("outlet") or alone) in view.chambers else ""

    return Form(
        name="outlet",
        title=say("Outlet seen"),
        steps=(
            *names_step("outlet", say("Outlet"), say("Which outlet?"), names),
            Step("flows", say("Water"), say("Does it run?"), AnswerKind.CHOOSE, flows, True),
            Step("invert", say("Invert, if measured"), invert.name, figure, spec=invert),
            Step("water", say("Water level, if measured"), water.name, figure, spec=water),
            position_step(),
            Step("note", say("Where"), say("Where? A stranger must find it"), AnswerKind.TEXT),
        ),
        command=lambda given_answers: _outlet(given_answers, alone),
        caution=caution,
        back="ties",
    )


def _level(view: AfterRainView, name: str) -> FieldSpec:
    us = view.figures.is_us
    entry = LengthEntry.FEET_HUNDREDTHS if us else LengthEntry.METRE_THOUSANDTHS
    return length_field(name, entry, is_signed=True)


def _outlet(answers: Answers, alone: str) -> LogOutlet:
    position = position_of(answers)
    return LogOutlet(
        outlet_id=answers.get("outlet") or alone,
        flows=answers["flows"],
        note=text_of(answers, "note"),
        invert_nm=value_of(answers, "invert"),
        invert_typed=typed_of(answers, "invert"),
        water_nm=value_of(answers, "water"),
        water_typed=typed_of(answers, "water"),
        placed_by=position.placed_by,
        lat_ndeg=position.lat_ndeg,
        lon_ndeg=position.lon_ndeg,
        placed_sd_nm=position.placed_sd_nm,
    )
