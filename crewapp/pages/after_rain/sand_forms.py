"""The questions about a material: a box weighed, a jar flooded, a sieve sheet."""

from __future__ import annotations

from crewapp.commands.materials import LogBoxWeighing, LogBulking, LogSieveTest
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
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.pages.after_rain.forms import names_step
from crewapp.pages.after_rain.repair_forms import small_field, small_mass_field
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.words.translate import say, translate_later
from models.science.materials.gradation import EDITIONS
from models.units import NM_PER, PL_PER, LengthUnit, VolumeUnit
from models.units.rounding import show_decimal

SIEVES_UM = (3350, 2000, 1000, 500, 250, 150, 53, 0)
"""Sieves of the table that golf sand is held to, the pan last [um]; from memory."""

NUMBERS = {3350: "6", 2000: "10", 1000: "18", 500: "35", 250: "60", 150: "100", 53: "270"}
MOISTURES = {
    "dry": translate_later("dry"),
    "damp": translate_later("damp"),
    "wet": translate_later("wet"),
}
MOST_MG = 50_000_000
JAR_NM = 40 * NM_PER[LengthUnit.IN]


def material_steps(view: AfterRainView, *, is_sand: bool) -> tuple[Step, ...]:
    """Ask for the material, unless there is one alone."""
    names = view.sands if is_sand else view.materials
    question = say("Which sand?") if is_sand else say("Which material?")
    return names_step("material", say("Material"), question, names)


def material_of(answers: Answers, view: AfterRainView, *, is_sand: bool) -> str:
    """Return the material answered, or the one there is."""
    names = view.sands if is_sand else view.materials
    return str(answers.get("material") or (names[0].name if len(names) == 1 else ""))


def box_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about a box of known volume, filled loose, struck off and weighed."""
    volume = small_field(view, say("What the box holds"))
    mass = small_mass_field(view, say("What fills it weighs, less the box"))
    boxes = (VolumeUnit.FT3, (1,)) if view.figures.is_us else (VolumeUnit.L, (10, 20))
    sizes = tuple(
        Option(count * PL_PER[boxes[0]], volume.show(count * PL_PER[boxes[0]]))
        for count in boxes[1]
    )
    return Form(
        name="box",
        title=say("Weigh a box"),
        steps=(
            *material_steps(view, is_sand=False),
            Step("volume", say("Box"), volume.name, AnswerKind.FIGURE, sizes, True, spec=volume),
            Step("mass", say("Weight"), mass.name, AnswerKind.FIGURE, (), True, spec=mass),
            Step(
                "moisture",
                say("Feels"),
                say("How does it feel?"),
                AnswerKind.CHOOSE,
                tuple(Option(key, say(text)) for key, text in MOISTURES.items()),
                True,
            ),
        ),
        command=lambda given_answers: LogBoxWeighing(
            material_id=material_of(given_answers, view, is_sand=False),
            volume_pl=figure_of(given_answers, "volume"),
            volume_typed=f"{typed_of(given_answers, 'volume')} {volume.unit}",
            mass_ug=figure_of(given_answers, "mass"),
            mass_typed=f"{typed_of(given_answers, 'mass')} {mass.unit}",
            moisture=given_answers["moisture"],
        ),
        back="sand",
    )


def jar_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about moist sand in a jar, then the same sand flooded and settled."""
    entry = LengthEntry.INCHES if view.figures.is_us else LengthEntry.MM
    moist = length_field(say("Height of the moist sand"), entry, Bands(Band(1, JAR_NM)))
    most = value_of(answers, "moist") or JAR_NM
    flooded = length_field(say("Height once flooded"), entry, Bands(Band(1, most)))
    return Form(
        name="jar",
        title=say("Bulking jar"),
        steps=(
            *material_steps(view, is_sand=True),
            Step("moist", say("Moist"), moist.name, AnswerKind.FIGURE, (), True, spec=moist),
            Step(
                "flooded", say("Flooded"), flooded.name, AnswerKind.FIGURE, (), True, spec=flooded
            ),
        ),
        command=lambda given_answers: LogBulking(
            material_id=material_of(given_answers, view, is_sand=True),
            moist_nm=figure_of(given_answers, "moist"),
            moist_typed=typed_of(given_answers, "moist"),
            flooded_nm=figure_of(given_answers, "flooded"),
            flooded_typed=typed_of(given_answers, "flooded"),
        ),
        back="sand",
    )


def grams_field(name: str) -> FieldSpec:
    """Return the field of what a sieve held back, in tenths of a gram."""
    return FieldSpec(
        name=name,
        unit="g",
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=5, places=1),
        parse=_milligrams,
        show=lambda mg: f"{show_decimal(mg // 100, 1)} g",
        bands=Bands(Band(0, MOST_MG)),
    )


def _milligrams(text: str) -> int:
    whole, _, part = text.partition(".")
    return int(whole or 0) * 1000 + int((part + "000")[:3])


def short_name(um: int) -> str:
    """Say which sieve it is by its opening alone."""
    return f"{um / 1000:g} mm" if um else say("Pan")


def sieve_name(um: int) -> str:
    """Say which sieve it is: its opening, and its number in the US."""
    if not um:
        return say("Pan")
    return say("{mm} mm, No. {number}", mm=f"{um / 1000:g}", number=NUMBERS[um])


def sieve_form(view: AfterRainView, answers: Answers) -> Form:
    """A sieve sheet typed in sieve by sieve, the largest first; the sum stands over it."""
    grams = [grams_field(sieve_name(um)) for um in SIEVES_UM]
    asked = [
        Step(f"um{um}", short_name(um), spec.name, AnswerKind.FIGURE, (), True, spec=spec)
        for um, spec in zip(SIEVES_UM, grams, strict=True)
    ]
    return Form(
        name="sieve",
        title=held_words(answers),
        steps=(
            *material_steps(view, is_sand=True),
            *asked,
            Step(
                "edition",
                say("Held to"),
                say("Which published table is it held to?"),
                AnswerKind.CHOOSE,
                tuple(Option(one, one) for one in EDITIONS),
            ),
            Step("laboratory", say("Who sieved it"), say("Who sieved it?"), AnswerKind.TEXT),
        ),
        command=lambda given_answers: LogSieveTest(
            material_id=material_of(given_answers, view, is_sand=True),
            held=tuple((um, value_of(given_answers, f"um{um}") or 0) for um in SIEVES_UM),
            edition=text_of(given_answers, "edition"),
            laboratory=text_of(given_answers, "laboratory"),
        ),
        back="sand",
        pad_place=held_short_text(answers),
    )


def held_words(answers: Answers) -> str:
    """Say what all sieves held back so far, to hold against what was put in."""
    return say("{mass} g held in all", mass=_held(answers))


def held_short_text(answers: Answers) -> str:
    """Say the sum of all sieves so far, short, for the pad."""
    return say("{mass} g so far", mass=_held(answers))


def _held(answers: Answers) -> str:
    total_mg = sum(value_of(answers, f"um{um}") or 0 for um in SIEVES_UM)
    return show_decimal(total_mg // 100, 1)
