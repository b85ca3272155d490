"""Reads the take-off of the job and the gates of the water of a surface."""

from __future__ import annotations

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.plan.view import GatesView, Row, TakeoffItem, TakeoffView
from crewapp.words.translate import say
from models.entries.bodies.planning import DrainageTerms, UnitPrice
from models.entries.envelope import body_fields
from models.entries.kind_names import DRAINAGE_TERMS, UNIT_PRICE
from models.errors import CrewError
from models.queries.takeoff.job_takeoff import JobTakeoff, job_takeoff
from models.queries.takeoff.prices import KIND_OF
from models.queries.water.drainage_soil import UM_PER_MM
from models.queries.water.drainage_text import gate_texts, no_outlet_text, show_rate
from models.queries.water.surface_drainage import surface_drainage
from models.science.takeoff.items import Item, Kind, TakeoffLine
from models.units.job_units import Figures
from models.units.rounding import show_decimal

PER: dict[Kind, tuple[str, str]] = {
    Kind.LENGTH: ("100 ft", "1 m"),
    Kind.AREA: ("1000 ft2", "1 m2"),
    Kind.VOLUME: ("1 yd3", "1 m3"),
    Kind.MASS: ("1 ton", "1 t"),
    Kind.DAYS: ("1 day", "1 day"),
    Kind.COUNT: ("1 each", "1 each"),
}
"""What a price typed on the screen buys, by what the item is measured in."""
MICRO = 1_000_000


def takeoff_view(job: OpenJob) -> TakeoffView:
    """Read the whole job's take-off."""
    found = job_takeoff(job.state)
    money = tuple(
        Row(item_title(line.item), line.arithmetic(found.show), found.show(line.amount))
        for line in found.money
        if line.item is not Item.ESTIMATE
    )
    total = next((line for line in found.money if line.item is Item.ESTIMATE), None)
    return TakeoffView(
        items=tuple(_item(job, found, line) for line in found.lines),
        money=money,
        estimate=found.show(total.amount) if total else "",
        missing=found.missing,
        basis=found.basis,
    )


def _item(job: OpenJob, found: JobTakeoff, line: TakeoffLine) -> TakeoffItem:
    price: UnitPrice | None = job.state.latest(UNIT_PRICE, line.item.value)
    return TakeoffItem(
        key=line.item.value,
        name=item_title(line.item),
        figure=found.show(line.amount),
        arithmetic=line.arithmetic(found.show),
        price=_money(price) if price else "",
        per=per_of(line.item, job.figures),
    )


def _money(price: UnitPrice) -> str:
    return say("{price} a {per}", price=show_decimal(price.price_cents, 2), per=price.per)


def item_title(item: Item) -> str:
    """Return the name of an item as it stands at the head of a line."""
    return _capital(say(item.value))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def per_of(item: Item, figures: Figures) -> str:
    """Return what a price of an item is by, "" where it takes none."""
    kind = KIND_OF.get(item)
    return PER[kind][0 if figures.is_us else 1] if kind is not None else ""


def gates_view(job: OpenJob, surface_id: str) -> GatesView:
    """Read the gates of a surface; why not, where they can't be reckoned."""
    terms: DrainageTerms | None = job.state.latest(DRAINAGE_TERMS, surface_id)
    shown = estimate_terms(terms, job.figures) if terms else {}
    kept = body_fields(terms) if terms else {}
    try:
        drainage = surface_drainage(job.state, surface_id)
    except CrewError as fault:
        return GatesView(terms=shown, kept=kept, why_not=str(fault))
    lost = no_outlet_text(drainage.inputs)
    rows = [Row(say("No way out"), lost, status=Status.CHECK)] if lost else []
    notes: list[str] = []
    for text in gate_texts(drainage):
        rows.append(Row(say("Gates {title}", title=say(text.title)), text.governs))
        rows += [
            Row(_capital(say(line.gate)), line.how, line.rate, Status.CHECK if line.governs else "")
            for line in text.lines
        ]
        rows += [Row(say("What would widen it"), wider) for wider in text.wider]
        rows.append(Row(say("After the stated rain"), text.gone))
        rows += [Row(say("The soil by itself"), text.soil)] if text.soil else []
        rows += [Row(say("Mind the speed"), one, status=Status.CHECK) for one in text.warnings]
    notes += drainage.missing
    return GatesView(tuple(rows), tuple(notes), drainage.estimate, shown, kept)


def estimate_terms(terms: DrainageTerms, figures: Figures) -> dict[str, str]:
    """Return the terms of the estimate as they are typed on the screen."""
    sand = terms.sand_um_per_h
    return {
        "sand": _rate(sand, figures),
        "roughness": f"{terms.roughness_millionths / MICRO:g}",
        "rain": figures.depth(terms.rain_nm),
        "rain_min": say("{count} min", count=terms.rain_min),
        "bore": figures.depth(terms.pipe_bore_nm) if terms.pipe_bore_nm else "",
        "fall": figures.grade(terms.pipe_fall_millionths) if terms.pipe_fall_millionths else "",
        "soil": show_rate(terms.soil_um_per_h / UM_PER_MM, figures) if terms.soil_um_per_h else "",
        "layer": figures.depth(terms.impermeable_depth_nm) if terms.impermeable_depth_nm else "",
    }


def _rate(um_per_h: int, figures: Figures) -> str:
    if figures.is_us:
        return f"{um_per_h / 25_400:.1f} in/h"
    return f"{um_per_h / 1000:.0f} mm/h"
