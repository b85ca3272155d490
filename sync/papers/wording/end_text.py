"""Entries of the two ends of a job in a line of plain words: planning, tests, ties, after."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from models.counted import CountedNoun
from models.entries.bodies.after_rain import InfiltrationTest, Rain, Repair, SandTopUp, SurfaceSeen
from models.entries.bodies.blades import BladeSet
from models.entries.bodies.instruments import PegTest
from models.entries.bodies.loads import Delivery
from models.entries.bodies.material_tests import BoxWeighing, BulkingTest, SieveTest
from models.entries.bodies.passes import SandPlaced
from models.entries.bodies.planning import DrainageTerms, SurfaceLayout, Tie, UnitPrice
from models.entries.index import B, EntryKind
from models.entries.kind_names import (
    BLADE_SET,
    BOX_WEIGHING,
    BULKING_TEST,
    DRAINAGE_TERMS,
    INFILTRATION_TEST,
    INSTRUMENT,
    INSTRUMENT_EVENT,
    LAYOUT,
    LOCAL_PLANE,
    PEG_TEST,
    PERMANENT_POINT,
    RAIN,
    REPAIR,
    SAND_TOP_UP,
    SIEVE_TEST,
    SURFACE_SEEN,
    TABLET_ADDED,
    TABLET_REVOKED,
    TAKEOFF_TERMS,
    TIE,
    UNIT_PRICE,
)
from models.units.job_units import Figures

Say = Callable[[Any, Figures], str]
"""What says the body of a kind; only ``text_for`` makes one, so that the two fit."""


def text_for(kind: EntryKind[B], say: Callable[[B, Figures], str]) -> tuple[str, Say]:
    """A kind by its name, with what says its bodies."""
    return kind.name, say


def join_parts(*parts: str) -> str:
    """Return the parts that say something, with commas between."""
    return ", ".join(part for part in parts if part)


def amount_of(body: SandPlaced | SandTopUp | Delivery, figures: Figures) -> str:
    """Mass, volume or length of a body, whichever was measured."""
    if body.mass_ug is not None:
        return figures.mass(body.mass_ug)
    if isinstance(body, Delivery) and body.length_nm is not None:
        return figures.length(body.length_nm)
    return figures.volume(body.volume_pl or 0)


def _layout(body: SurfaceLayout, figures: Figures) -> str:
    drives, stubs = len(body.drives), len(body.stubs)
    return (
        f"{body.surface_id}: {CountedNoun(drives):pass|passes} "
        f"planned, {CountedNoun(stubs):stub|stubs} dropped"
    )


def _price(body: UnitPrice, figures: Figures) -> str:
    return join_parts(
        f"{body.item}: {body.price_cents // 100}.{body.price_cents % 100:02d} for {body.per}",
        body.note,
    )


def _drainage(body: DrainageTerms, figures: Figures) -> str:
    rain = f"rain of {figures.depth(body.rain_nm)} in {body.rain_min} min"
    return join_parts(f"{body.surface_id}: {rain}", body.source)


def _tie(body: Tie, figures: Figures) -> str:
    place = body.line_id or body.collector_id
    what = body.what or body.tied.replace("_", " ")
    return f"{figures.length(body.distance_nm)} from {body.point_id} to {place} {what}".strip()


def _sieve(body: SieveTest, figures: Figures) -> str:
    return join_parts(
        f"{body.material_id}: {CountedNoun(len(body.weights)):sieve|sieves}",
        body.edition,
        body.laboratory,
    )


def _box(body: BoxWeighing, figures: Figures) -> str:
    mass = body.mass_typed or figures.mass(body.mass_ug)
    weighed = f"{mass} in {body.volume_typed or figures.volume(body.volume_pl)}"
    return join_parts(f"{body.material_id}: {weighed}", body.moisture)


def _bulking(body: BulkingTest, figures: Figures) -> str:
    moist, flooded = figures.depth(body.moist_nm), figures.depth(body.flooded_nm)
    return f"{body.material_id}: {moist} moist, {flooded} under water"


def _rain(body: Rain, figures: Figures) -> str:
    return join_parts(figures.depth(body.depth_nm), body.gauge, body.note)


def _seen(body: SurfaceSeen, figures: Figures) -> str:
    place = join_parts(body.surface_id, body.plot)
    return join_parts(f"{place}: {body.condition.replace('_', ' ')}", body.note)


def _infiltration(body: InfiltrationTest, figures: Figures) -> str:
    ring = f"{body.method.replace('_', ' ')} of {figures.depth(body.inner_nm)}"
    readings = f"{CountedNoun(len(body.readings)):reading|readings}"
    return join_parts(f"{body.surface_id}, {body.when}: {ring}", readings, body.where, body.note)


def _top_up(body: SandTopUp, figures: Figures) -> str:
    lines = " ".join(body.line_ids)
    settled = f"settled {figures.depth(body.settled_nm)}" if body.settled_nm is not None else ""
    amount = f"{amount_of(body, figures)} of {body.material_id}"
    return join_parts(f"{body.surface_id} {lines}".strip() + f": {amount}", settled, body.note)


def _repair(body: Repair, figures: Figures) -> str:
    place = f"{body.surface_id} {body.line_id}".strip() or body.collector_id
    at = figures.station(body.station_nm) if body.station_nm is not None else ""
    done = body.done.replace("_", " ")
    return join_parts(f"{place} {at}".strip() + f": {done}", body.why, body.note)


def _peg_test(body: PegTest, figures: Figures) -> str:
    mid = f"midway A {figures.level(body.mid_a_nm)}, B {figures.level(body.mid_b_nm)}"
    end = f"then A {figures.level(body.end_a_nm)}, B {figures.level(body.end_b_nm)}"
    far = f"from {figures.length(body.to_a_nm)} and {figures.length(body.to_b_nm)}"
    return join_parts(f"{body.instrument_id}: {mid}", f"{end} {far}")


def _blade_set(body: BladeSet, figures: Figures) -> str:
    which = f"leg {body.leg}" if body.leg else "all blades"
    return join_parts(f"{body.machine_id}: {which} {body.what.replace('_', ' ')}", body.note)


TITLES = {
    "blade_set": "Blade set",
    "instrument_event": "What befell it",
    "local_plane": "Local plane",
    "layout": "Lines laid out",
    "takeoff_terms": "Take-off terms",
    "tie": "Tie",
    "surface_seen": "Surface seen",
    "tablet_added": "Tablet added",
    "tablet_revoked": "Tablet taken off the list",
}

END_WORDS: dict[str, Say] = dict(
    (
        text_for(BLADE_SET, _blade_set),
        text_for(INSTRUMENT, lambda b, f: f"{b.instrument_id}: {b.what.replace('_', ' ')}"),
        text_for(INSTRUMENT_EVENT, lambda b, f: f"{b.instrument_id}: {b.what}"),
        text_for(PEG_TEST, _peg_test),
        text_for(
            LOCAL_PLANE,
            lambda b, f: join_parts(
                f"origin at {b.lat_ndeg / 1e9:.7f}, {b.lon_ndeg / 1e9:.7f} (WGS 84)", b.how
            ),
        ),
        text_for(LAYOUT, _layout),
        text_for(
            TAKEOFF_TERMS,
            lambda b, f: "waste, swell, loads and rates that the take-off reckons with",
        ),
        text_for(UNIT_PRICE, _price),
        text_for(DRAINAGE_TERMS, _drainage),
        text_for(PERMANENT_POINT, lambda b, f: f"{b.point_id}: {b.where}"),
        text_for(TIE, _tie),
        text_for(SIEVE_TEST, _sieve),
        text_for(BOX_WEIGHING, _box),
        text_for(BULKING_TEST, _bulking),
        text_for(RAIN, _rain),
        text_for(SURFACE_SEEN, _seen),
        text_for(INFILTRATION_TEST, _infiltration),
        text_for(SAND_TOP_UP, _top_up),
        text_for(REPAIR, _repair),
        text_for(TABLET_ADDED, lambda b, f: join_parts(b.code, b.name)),
        text_for(TABLET_REVOKED, lambda b, f: join_parts(b.code, b.why)),
    )
)
