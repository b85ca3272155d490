"""Loads of a day with their tickets, and the balance of each material to date."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.kind_names import DELIVERY, MATERIAL
from models.queries.materials.material_properties import density_of
from models.queries.materials.sand_balance import mass_of_volume_ug
from models.state.indexes import PIPE_OF, SAND_OF
from models.state.job_state import JobState
from sync.papers.wording.measures import Measure, delivered_amount


@dataclass(frozen=True, slots=True)
class LoadLine:
    """A load in, or a load of spoil out."""

    at: str
    way: str
    what: str
    ticket: str
    measure: Measure
    amount: int
    amount_typed: str
    note: str
    author: str
    body: Delivery | SpoilAway


@dataclass(frozen=True, slots=True)
class Balance:
    """Balance of one material by the day, in one measure: delivered and used."""

    material_id: str
    measure: Measure
    delivered: int
    used: int

    @property
    def on_hand(self) -> int:
        """Amount that should still lie there; below nothing a load was not written down."""
        return self.delivered - self.used


def loads_of(state: JobState, day: str, time_of: dict[str, str]) -> tuple[LoadLine, ...]:
    """Loads of the day in the order of the book."""
    found = []
    for entry in state.days.get(day, ()):
        if state.is_struck(entry.id):
            continue
        at, body = time_of.get(entry.id, ""), entry.body
        if isinstance(body, Delivery):
            measure, amount = delivered_amount(body)
            what = f"{body.material_id}, {body.coil_id}" if body.coil_id else body.material_id
            typed, ticket = body.amount_typed, body.ticket
            found.append(
                LoadLine(
                    at, "in", what, ticket, measure, amount, typed, body.note, entry.author, body
                )
            )
        elif isinstance(body, SpoilAway):
            typed, amount = body.volume_typed, body.volume_pl
            what = f"spoil {body.surface_id}".strip()
            found.append(
                LoadLine(
                    at, "out", what, "", Measure.VOLUME, amount, typed, body.to, entry.author, body
                )
            )
    return tuple(found)


def balances_of(state: JobState, day: str) -> tuple[Balance, ...]:
    """Delivered and used to date, for every material and measure met by the day."""
    return tuple(
        balance
        for name in state.every_name(MATERIAL)
        for balance in _of_material(state, name, day)
        if balance.delivered or balance.used
    )


def _of_material(state: JobState, name: str, day: str) -> Iterator[Balance]:
    loads = [one.body for one in state.current(DELIVERY, name) if one.day <= day]
    sand = [one.body for one in state.current(SAND_OF, name) if one.day <= day]
    pipes = [one.body for one in state.current(PIPE_OF, name) if one.day <= day]
    mass = Balance(
        name,
        Measure.MASS,
        sum(load.mass_ug or 0 for load in loads),
        sum(one.mass_ug or 0 for one in sand),
    )
    volume = Balance(
        name,
        Measure.VOLUME,
        sum(load.volume_pl or 0 for load in loads),
        sum(one.volume_pl or 0 for one in sand),
    )
    length = Balance(
        name,
        Measure.LENGTH,
        sum(load.length_nm or 0 for load in loads),
        sum(pipe.length_nm for pipe in pipes),
    )
    known = density_of(state, name)
    if known is not None and (mass.delivered or mass.used) and (volume.delivered or volume.used):
        yield Balance(
            name,
            Measure.MASS,
            mass.delivered + mass_of_volume_ug(volume.delivered, known.g_per_m3),
            mass.used + mass_of_volume_ug(volume.used, known.g_per_m3),
        )
        yield length
    else:
        yield from (mass, volume, length)
