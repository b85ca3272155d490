"""The questions about what was put right after the work: sand topped up, repairs."""

from __future__ import annotations

from crewapp.commands.after_rain import LogRepair, TopUpSand
from crewapp.kit.input.fields import mass_field, station_field
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
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec
from crewapp.kit.input.plausible import Band, Bands
from crewapp.kit.input.work_fields import depth_field
from crewapp.pages.after_rain.forms import names_step, surface_of, surface_steps
from crewapp.pages.after_rain.view import AfterRainView
from crewapp.words.translate import say, translate_later
from models.units import (
    PL_PER,
    UG_PER,
    MassUnit,
    VolumeStyle,
    VolumeUnit,
    parse_volume,
    show_volume,
)

DONE = {
    "flushed": translate_later("Flushed"),
    "cleaned": translate_later("Cleaned"),
    "repaired": translate_later("Repaired"),
    "replaced": translate_later("Replaced"),
    "looked_at": translate_later("Looked at"),
}
WHY = (
    translate_later("silt in it"),
    translate_later("roots in it"),
    translate_later("blocked"),
    translate_later("crushed"),
    translate_later("settled"),
    translate_later("first flush"),
)
MOST_SMALL_PL = 20 * PL_PER[VolumeUnit.YD3]


def small_field(view: AfterRainView, name: str) -> FieldSpec:
    """Return a field for a volume that a barrow or a box holds: cubic feet or litres."""
    unit, style = (
        (VolumeUnit.FT3, VolumeStyle.FT3_100)
        if view.figures.is_us
        else (VolumeUnit.L, VolumeStyle.L_10)
    )
    return FieldSpec(
        name=name,
        unit=str(unit),
        grammar=Grammar(KeyKind.DECIMAL, whole_digits=4, places=2),
        parse=lambda text: parse_volume(text, unit),
        show=lambda pl: show_volume(pl, style, mark=True),
        bands=Bands(Band(1, MOST_SMALL_PL)),
    )


def small_mass_field(view: AfterRainView, name: str) -> FieldSpec:
    """Return a field for a mass that a person lifts: pounds or kilograms."""
    unit = MassUnit.LB if view.figures.is_us else MassUnit.KG
    return mass_field(name, unit, Bands(Band(1, 20 * UG_PER[MassUnit.TON])))


def top_up_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about sand added where slits settled: how much, where, how far they sank."""
    by_mass = answers.get("by") == "mass"
    amount = (small_mass_field if by_mass else small_field)(view, say("Sand added"))
    settled = depth_field(view.figures, say("How far had it sunk?"), None)
    lines = view.lines.get(surface_of(answers, view), ())
    ways = (Option("volume", say("By volume")), Option("mass", say("By weight")))
    return Form(
        name="top_up",
        title=say("Sand topped up"),
        steps=(
            *surface_steps(view),
            *names_step("sand", say("Sand"), say("Which sand?"), view.sands),
            Step("by", say("Measured"), say("How was it measured?"), AnswerKind.CHOOSE, ways, True),
            Step("amount", amount.name, amount.name, AnswerKind.FIGURE, (), True, spec=amount),
            Step(
                "lines",
                say("Lines (none: all over)"),
                say("Which lines?"),
                AnswerKind.SEVERAL,
                tuple(Option(one, one) for one in lines),
            ),
            Step("settled", say("Had sunk"), settled.name, AnswerKind.FIGURE, spec=settled),
        ),
        command=lambda given_answers: _top_up(given_answers, view, f"{amount.unit}"),
        back="home",
    )


def _top_up(answers: Answers, view: AfterRainView, unit: str) -> TopUpSand:
    alone = view.sands[0].name if len(view.sands) == 1 else ""
    amount, by_mass = value_of(answers, "amount"), answers.get("by") == "mass"
    return TopUpSand(
        surface_id=surface_of(answers, view),
        material_id=answers.get("sand") or alone,
        line_ids=tuple(answers.get("lines") or ()),
        amount_typed=f"{typed_of(answers, 'amount')} {unit}",
        settled_nm=value_of(answers, "settled"),
        settled_typed=typed_of(answers, "settled"),
        volume_pl=None if by_mass else amount,
        mass_ug=amount if by_mass else None,
    )


def repair_form(view: AfterRainView, answers: Answers) -> Form:
    """Questions about a repair: flushed, cleaned, repaired or replaced, and where."""
    sort, _, name = str(answers.get("place", "")).partition("/")
    places = (
        *(Option(f"collector/{one.name}", one.text) for one in view.collectors),
        *(Option(f"surface/{one.name}", one.text) for one in view.surfaces),
    )
    steps = [
        Step(
            "done",
            say("Done"),
            say("What was done?"),
            AnswerKind.CHOOSE,
            tuple(Option(key, say(text)) for key, text in DONE.items()),
            True,
        ),
        Step("place", say("Where"), say("Where?"), AnswerKind.CHOOSE, places, True),
        Step(
            "why",
            say("Trouble"),
            say("What was wrong?"),
            AnswerKind.TEXT,
            tuple(Option(say(one), say(one)) for one in WHY),
        ),
    ]
    if sort == "collector":
        spec = station_field(say("At which station?"), view.figures.stations)
        steps.append(Step("station", say("Station"), spec.name, AnswerKind.FIGURE, spec=spec))
    elif sort == "surface":
        lines = tuple(Option(one, one) for one in view.lines.get(name, ()))
        steps.append(Step("line", say("Line"), say("Which line?"), AnswerKind.CHOOSE, lines))
    return Form(
        name="repair",
        title=say("Repair or flush"),
        steps=tuple(steps),
        command=_repair,
        back="home",
    )


def _repair(answers: Answers) -> LogRepair:
    sort, _, name = str(answers["place"]).partition("/")
    did, why = answers["done"], text_of(answers, "why")
    if sort == "surface":
        return LogRepair(did=did, why=why, surface_id=name, line_id=text_of(answers, "line"))
    return LogRepair(did=did, why=why, collector_id=name, station_nm=value_of(answers, "station"))
