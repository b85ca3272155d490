"""A ring test while it runs: its questions, its readings, and the rates as they come."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar, Literal

from crewapp.commands.after_rain import LogInfiltration, RingLevel
from crewapp.kit.input.fields import LengthEntry, length_field
from crewapp.kit.input.forms import (
    AnswerKind,
    Answers,
    Form,
    Option,
    Step,
    figure_of,
    text_of,
    value_of,
)
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.pages.after_rain.forms import surface_of, surface_steps
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.pages.frame.question_name import QuestionName
from crewapp.words.translate import say, translate_later
from models.errors import CalculationInputError
from models.science.water.infiltration import RingReading, RingResult, ring_result
from models.units import NM_PER, LengthUnit, round_half_even
from models.units.job_units import Figures

IN_NM, MM_NM = NM_PER[LengthUnit.IN], NM_PER[LengthUnit.MM]
RINGS_IN, RINGS_MM = (6, 8, 12, 18, 24), (150, 200, 300, 450, 600)
HIGHEST_NM = 60 * IN_NM
SPOTS = (
    translate_later("over a sand slit"),
    translate_later("between two slits"),
    translate_later("over a piped slit"),
)
METHODS = {
    "single_ring": translate_later("One ring"),
    "double_ring": translate_later("Two rings, the inner is read"),
}
TIMES = {"before": translate_later("Before the work"), "after": translate_later("After the work")}


@dataclass(frozen=True, slots=True)
class RingQuestion(QuestionName):
    """Question of the ring test while it runs."""

    subject: ClassVar[str] = "ring"
    field: Literal["level", "up"]


LEVEL, FILLED_UP = RingQuestion("level"), RingQuestion("up")


@dataclass(frozen=True, slots=True)
class TimedLevel:
    """Reading of a ring: seconds since the first, the level, what it was filled up to."""

    after_s: int
    level_nm: int
    typed: str = ""
    up_nm: int | None = None

    @classmethod
    def from_plain(cls, plain: Mapping[str, Any]) -> TimedLevel:
        """Read what a draft kept."""
        up = plain.get("up")
        return cls(
            int(plain["s"]), int(plain["nm"]), str(plain["text"]), None if up is None else up
        )

    def to_plain(self) -> dict[str, Any]:
        """Return the reading as a draft keeps it."""
        return {"s": self.after_s, "nm": self.level_nm, "text": self.typed, "up": self.up_nm}

    def to_reading(self) -> RingLevel:
        """Return the reading as a command has it."""
        return RingLevel(
            after_s=self.after_s,
            level_nm=self.level_nm,
            level_typed=self.typed,
            refilled_to_nm=self.up_nm,
        )


def level_field(figures: Figures, name: str) -> FieldSpec:
    """Return the field of a water level in a ring."""
    entry = LengthEntry.INCHES if figures.is_us else LengthEntry.MM
    return length_field(name, entry, Bands(Band(0, HIGHEST_NM)))


def ring_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions before a ring test's clock starts: where, before or after, and the ring."""
    inner = level_field(view.figures, say("Inside diameter of the ring"))
    driven = level_field(view.figures, say("How deep is it driven?"))
    sizes, unit = (RINGS_IN, IN_NM) if view.figures.is_us else (RINGS_MM, MM_NM)
    rings = tuple(Option(size * unit, view.figures.depth(size * unit)) for size in sizes)
    return Form(
        name="ring",
        title=say("Ring test"),
        steps=(
            *surface_steps(view),
            Step(
                "spot",
                say("Where"),
                say("Where is the ring? A stranger must find it"),
                AnswerKind.TEXT,
                tuple(Option(say(one), say(one)) for one in SPOTS),
                True,
            ),
            Step(
                "when", say("When"), say("Before or after?"), AnswerKind.CHOOSE, _named(TIMES), True
            ),
            Step(
                "method",
                say("Rings"),
                say("How many rings?"),
                AnswerKind.CHOOSE,
                _named(METHODS),
                True,
            ),
            Step("inner", say("Ring"), inner.name, AnswerKind.FIGURE, rings, True, spec=inner),
            Step("driven", say("Driven"), driven.name, AnswerKind.FIGURE, spec=driven),
        ),
        command=lambda given_answers: _log_ring(given_answers, view),
        ink=say("To the clock"),
        back="home",
    )


def _named(words: dict[str, str]) -> tuple[Option, ...]:
    return tuple(Option(key, say(text)) for key, text in words.items())


def _log_ring(answers: Answers, view: AfterRainView) -> LogInfiltration:
    return LogInfiltration(
        surface_id=surface_of(answers, view),
        where=text_of(answers, "spot"),
        when=text_of(answers, "when"),
        method=text_of(answers, "method"),
        inner_nm=figure_of(answers, "inner"),
        driven_nm=value_of(answers, "driven") or 0,
        readings=(),  # taken by the clock once the form is filled in
    )


def result_of(readings: Sequence[TimedLevel]) -> tuple[RingResult | None, str]:
    """Return what the readings come to so far, or why they come to nothing."""
    if len(readings) < 2:
        return None, ""
    plain = [RingReading(one.after_s, one.level_nm, one.up_nm) for one in readings]
    try:
        return ring_result(plain), ""
    except CalculationInputError as fault:
        return None, str(fault)


def show_rate(nm_per_h: Fraction, figures: Figures) -> str:
    """Write a rate of water: inches an hour to hundredths, or whole millimetres."""
    if figures.is_us:
        hundredths = round_half_even(nm_per_h.numerator * 100, nm_per_h.denominator * IN_NM)
        return f"{hundredths // 100}.{hundredths % 100:02d} in/h"
    return f"{round_half_even(nm_per_h.numerator, nm_per_h.denominator * MM_NM)} mm/h"


def show_run(seconds: int) -> str:
    """Write a time that runs: minutes and seconds, with hours where there are any."""
    minutes, rest = divmod(max(seconds, 0), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
