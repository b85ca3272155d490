"""Trial of a take-off with one input changed; nothing is written anywhere."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from models.entries.bodies.planning import UnitPrice
from models.errors import CrewError, UnreadableError
from models.queries.takeoff.inputs import TakeoffInputs
from models.queries.takeoff.job_takeoff import JobTakeoff, reckon
from models.queries.takeoff.prices import KIND_OF
from models.science.materials.sand import KG_PER_M3, LB_PER_FT3
from models.science.takeoff.items import ChangedLine, changed_lines
from models.units.job_units import Figures


class ChangeUnreadableError(CrewError, ValueError):
    """A change of an input that names no input, or gives no figure for it."""

    code = "takeoff.change"
    sentence = "Cannot change {name}: {why}. Accepted: {accepted}."


@dataclass(frozen=True, slots=True)
class Change:
    """A changed input: its name, and the figure as typed."""

    name: str
    text: str


@dataclass(frozen=True, slots=True)
class ChangedTakeoff:
    """A take-off before and after some changes, and every line that moved."""

    before: JobTakeoff
    after: JobTakeoff
    moved: tuple[ChangedLine, ...]
    money_moved: tuple[ChangedLine, ...]


def try_changes(inputs: TakeoffInputs, changes: list[Change]) -> ChangedTakeoff:
    """Work a take-off out again with some inputs changed, and list the lines that move.

    Raises
    ------
    ChangeUnreadableError
        If a change names no input, or its figure can't be read.
    """
    after = inputs
    for change in changes:
        after = changed_inputs(after, change)
    one, other = reckon(inputs), reckon(after)
    moved = tuple(changed_lines(one.lines, other.lines))
    return ChangedTakeoff(one, other, moved, tuple(changed_lines(one.money, other.money)))


def read_change(text: str) -> Change:
    """Read ``swell=30%`` into the name of an input and its figure.

    Raises
    ------
    ChangeUnreadableError
        If there is no name or no figure.
    """
    name, sign, figure = text.partition("=")
    name = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    if not sign or not name or not figure.strip():
        accepted = "a name, an equals sign and a figure, such as swell=30%"
        raise ChangeUnreadableError(
            name=text[:40] or "nothing", why="it is no change", accepted=accepted
        )
    return Change(name, figure.strip())


def changed_inputs(inputs: TakeoffInputs, change: Change) -> TakeoffInputs:
    """Inputs of a take-off with one of them changed.

    Raises
    ------
    ChangeUnreadableError
        If it names no input, or its figure can't be read.
    """
    if change.name.startswith("price "):
        return _with_price(inputs, change)
    lever = LEVERS.get(change.name)
    if lever is None:
        named = ", ".join(name.replace(" ", "-") for name in LEVERS)
        raise ChangeUnreadableError(
            name=change.name, why="no input is so named", accepted=f"{named}, price-ITEM"
        )
    try:
        return lever.put(inputs, lever.read(inputs.figures, change.text))
    except UnreadableError as fault:
        raise ChangeUnreadableError(
            name=change.name, why=str(fault).rstrip("."), accepted=lever.accepted
        ) from fault
    except ValueError as fault:
        why = f"'{change.text[:40]}' is not read as its figure"
        raise ChangeUnreadableError(name=change.name, why=why, accepted=lever.accepted) from fault


@dataclass(frozen=True, slots=True)
class Lever:
    """An input that can be changed: how it is read, where it goes, what is accepted."""

    read: Callable[[Figures, str], Any]
    put: Callable[[TakeoffInputs, Any], TakeoffInputs]
    accepted: str


_PERCENT = re.compile(r"(\d{1,3}(?:\.\d)?) *%")
_DENSITY = re.compile(r"(\d+(?:\.\d+)?) *(lb/ft3|kg/m3)")
_PER_UNIT = {"lb/ft3": LB_PER_FT3, "kg/m3": KG_PER_M3}


def _permille(_: Figures, text: str) -> int:
    found = _PERCENT.fullmatch(text)
    if found is None:
        raise ValueError
    return int(Fraction(found[1]) * 10)


def _density(_: Figures, text: str) -> Fraction:
    found = _DENSITY.fullmatch(text.lower().replace("\u00b3", "3"))
    if found is None or not Fraction(found[1]):
        raise ValueError
    return Fraction(found[1]) * _PER_UNIT[found[2]]


def _in_terms(field: str) -> Callable[[TakeoffInputs, Any], TakeoffInputs]:
    def put(inputs: TakeoffInputs, value: Any) -> TakeoffInputs:
        terms = inputs.terms.model_copy(update={field: value})
        return replace(inputs, terms=terms, has_terms=True)

    return put


def _in_bulk(which: str, field: str) -> Callable[[TakeoffInputs, Any], TakeoffInputs]:
    def put(inputs: TakeoffInputs, value: Any) -> TakeoffInputs:
        origin = {"density": {"density_from": "as tried"}, "bulking": {"bulking_from": "as tried"}}
        facts = replace(getattr(inputs, which), **{field: value}, **origin.get(field, {}))
        return replace(inputs, **{which: facts})

    return put


def _bulking(inputs: TakeoffInputs, permille: int) -> TakeoffInputs:
    return _in_bulk("sand", "bulking")(inputs, Fraction(permille, 1000))


def _in_patterns(field: str) -> Callable[[TakeoffInputs, Any], TakeoffInputs]:
    """Put a size into the pattern of every slit, or into the piped ones where it is a pipe's."""

    def put(inputs: TakeoffInputs, value: Any) -> TakeoffInputs:
        uses = ("piped_slits",) if field == "pipe_outside_nm" else ("sand_slits", "piped_slits")
        surfaces = []
        for surface in inputs.surfaces:
            patterns = {use: getattr(surface, use) for use in uses}
            update = {
                use: pattern.model_copy(update={field: value})
                for use, pattern in patterns.items()
                if pattern is not None
            }
            surfaces.append(surface.model_copy(update=update))
        return replace(inputs, surfaces=tuple(surfaces))

    return put


def _in_designs(field: str) -> Callable[[TakeoffInputs, Any], TakeoffInputs]:
    def put(inputs: TakeoffInputs, value: Any) -> TakeoffInputs:
        collectors = tuple(
            one.model_copy(update={"design": one.design.model_copy(update={field: value})})
            for one in inputs.collectors
        )
        return replace(inputs, collectors=collectors)

    return put


_LENGTH, _DEPTH = (
    "a length with its unit, such as 500 ft or 150 m",
    "a size, such as 9 in or 230 mm",
)
_SHARE = "a percentage to tenths, such as 30%"
_MASS, _VOLUME = "a mass, such as 22 ton or 20 t", "a volume, such as 12 yd3 or 9 m3"
_LB = "a density, such as 98 lb/ft3 or 1570 kg/m3"

LEVERS: dict[str, Lever] = {
    "overbreak": Lever(_permille, _in_terms("overbreak_permille"), _SHARE),
    "swell": Lever(_permille, _in_terms("swell_permille"), _SHARE),
    "sand waste": Lever(_permille, _in_terms("sand_waste_permille"), _SHARE),
    "sand bulking": Lever(_permille, _bulking, _SHARE),
    "sand density": Lever(_density, _in_bulk("sand", "density"), _LB),
    "sand truck": Lever(Figures.read_mass, _in_terms("sand_truck_ug"), _MASS),
    "hopper": Lever(Figures.read_volume, _in_bulk("sand", "hopper_pl"), _VOLUME),
    "gravel waste": Lever(_permille, _in_terms("gravel_waste_permille"), _SHARE),
    "gravel density": Lever(_density, _in_bulk("gravel", "density"), _LB),
    "gravel truck": Lever(Figures.read_mass, _in_terms("gravel_truck_ug"), _MASS),
    "spoil truck": Lever(Figures.read_volume, _in_terms("spoil_truck_pl"), _VOLUME),
    "pipe waste": Lever(_permille, _in_terms("pipe_waste_permille"), _SHARE),
    "turf strip": Lever(Figures.read_depth, _in_terms("turf_strip_nm"), _DEPTH),
    "slit width": Lever(Figures.read_depth, _in_patterns("width_nm"), _DEPTH),
    "slit depth": Lever(Figures.read_depth, _in_patterns("depth_nm"), _DEPTH),
    "slit pipe": Lever(Figures.read_depth, _in_patterns("pipe_outside_nm"), _DEPTH),
    "slit coil": Lever(Figures.read_length, _in_terms("slit_coil_nm"), _LENGTH),
    "trench width": Lever(Figures.read_depth, _in_designs("trench_width_nm"), _DEPTH),
    "bedding": Lever(Figures.read_depth, _in_designs("bedding_nm"), _DEPTH),
    "surround over": Lever(Figures.read_depth, _in_terms("surround_over_nm"), _DEPTH),
    "fabric lap": Lever(Figures.read_depth, _in_terms("fabric_lap_nm"), _DEPTH),
    "sod": Lever(Figures.read_depth, _in_terms("sod_nm"), _DEPTH),
    "collector coil": Lever(Figures.read_length, _in_terms("collector_coil_nm"), _LENGTH),
    "wire slack": Lever(_permille, _in_terms("wire_slack_permille"), _SHARE),
    "wire tails": Lever(Figures.read_length, _in_terms("wire_tails_nm"), _LENGTH),
    "sand slits a day": Lever(Figures.read_length, _in_terms("sand_slit_a_day_nm"), _LENGTH),
    "piped slits a day": Lever(Figures.read_length, _in_terms("piped_slit_a_day_nm"), _LENGTH),
    "collector a day": Lever(Figures.read_length, _in_terms("collector_a_day_nm"), _LENGTH),
}
"""Every input that can be changed, by its name."""


def _with_price(inputs: TakeoffInputs, change: Change) -> TakeoffInputs:
    """Inputs with one price typed in: ``price-sand-to-order=42.50/ton``."""
    item = change.name.removeprefix("price ").strip()
    accepted = "price-ITEM=MONEY/UNIT, such as price-sand-to-order=42.50/ton"
    found = re.fullmatch(r"(\d{1,9}(?:\.\d{1,2})?) */ *(.{1,40})", change.text)
    if found is None or item not in {known.value for known in KIND_OF}:
        why = "its item or its price is not read"
        raise ChangeUnreadableError(name=change.name, why=why, accepted=accepted)
    cents = int(Fraction(found[1]) * 100)
    price = UnitPrice(item=item, price_cents=cents, per=found[2], note="as tried")
    kept = tuple(one for one in inputs.prices if one.item.lower() != item)
    return replace(inputs, prices=(*kept, price))
