"""Notes of a take-off: the basis of each figure, and what is left out."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction

from models.queries.takeoff.inputs import BulkFacts, TakeoffInputs
from models.science.takeoff.formatting import show_amount
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine

SAND_PLACED = (Item.SLIT_SAND, Item.COLLECTOR_SAND)
GRAVEL_PLACED = (Item.BEDDING, Item.SURROUND)


def basis_of(inputs: TakeoffInputs, lines: Sequence[TakeoffLine]) -> list[str]:
    """Sentences on what the figures rest on."""
    items = {line.item for line in lines}
    told: list[str] = []
    if not items.isdisjoint(SAND_PLACED):
        told += _bulk_basis("Sand", inputs.sand, inputs)
        told.append(_bulking_words(inputs))
    if not items.isdisjoint(GRAVEL_PLACED):
        told += _bulk_basis("Gravel", inputs.gravel, inputs)
    if Item.TURF_STRIP in items:
        told.append("Turf strips are lifted on greens alone.")
    return told


def _bulk_basis(what: str, facts: BulkFacts, inputs: TakeoffInputs) -> list[str]:
    if facts.density is None:
        return []
    shown = show_amount(Amount(facts.density, Kind.DENSITY), inputs.figures.system)
    moist = "weighed damp" in facts.density_from or "weighed wet" in facts.density_from
    more = "; it holds water and air, so weigh a dry box for a dry mass" if moist else ""
    return [f"{what}: {shown}, {facts.density_from}{more}."]


def _bulking_words(inputs: TakeoffInputs) -> str:
    sand = inputs.sand
    if not sand.bulking_from:
        return "No bulking is reckoned with: the sand is taken to come dry."
    share = show_amount(Amount(sand.bulking, Kind.SHARE), inputs.figures.system)
    return f"Bulking of the sand: {share}, {sand.bulking_from}."


def missing_orders(inputs: TakeoffInputs, lines: Sequence[TakeoffLine]) -> list[str]:
    """Sentences on what is not counted for want of an input."""
    items = {line.item for line in lines}
    told: list[str] = []
    if items and not inputs.has_terms:
        told.append(
            "No terms of the take-off are written: waste, swell, overbreak and bulking count as "
            "nothing."
        )
    if not items.isdisjoint(SAND_PLACED):
        told += _bulk_missing("sand", inputs.sand.density, inputs.terms.sand_truck_ug)
        if inputs.sand.hopper_pl is None:
            told.append("No hopper of the sand is known: hopper loads are not counted.")
    if not items.isdisjoint(GRAVEL_PLACED):
        told += _bulk_missing("gravel", inputs.gravel.density, inputs.terms.gravel_truck_ug)
    if Item.SPOIL_LOOSE in items and not inputs.terms.spoil_truck_pl:
        told.append("No truck for spoil is given: its loads are not counted.")
    told += _pipe_missing(inputs, items)
    return told + _rates_missing(inputs, items)


def _bulk_missing(what: str, density: Fraction | None, truck_ug: int | None) -> list[str]:
    if density is None:
        return [
            f"No bulk density of the {what} is known: its mass and truck loads are not counted. "
            "Weigh a box of it."
        ]
    if not truck_ug:
        return [f"No truck for {what} is given: its loads are not counted."]
    return []


def _pipe_missing(inputs: TakeoffInputs, items: Collection[Item]) -> list[str]:
    told: list[str] = []
    if Item.SLIT_PIPE in items and not inputs.terms.slit_coil_nm:
        told.append("No coil of the slits' pipe is given: coils and splices are not counted.")
    if Item.COLLECTOR_PIPE in items and not inputs.terms.collector_coil_nm:
        told.append("No coil or stick of the collector's pipe is given: they are not counted.")
    return told


def _rates_missing(inputs: TakeoffInputs, items: Collection[Item]) -> list[str]:
    terms = inputs.terms
    rates = {
        Item.SAND_SLIT_LENGTH: terms.sand_slit_a_day_nm,
        Item.PIPED_SLIT_LENGTH: terms.piped_slit_a_day_nm,
        Item.COLLECTOR_LENGTH: terms.collector_a_day_nm,
    }
    unknown = [item.value for item, rate in rates.items() if item in items and not rate]
    if not unknown:
        return []
    return [f"No daily rate is given for {' and '.join(unknown)}: their days are not in the total."]
