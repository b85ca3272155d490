"""Commands that plan a job: machines, locate tickets, prices, terms of the drainage."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class SetDeepest(Command):
    """Write how deep a machine cuts at most; the rest of it stays as it is."""

    machine_id: str
    deepest_nm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AddTicket(Command):
    """Write a locate ticket: its number, the days it is good for, the ground it covers."""

    ticket: str
    valid_from: str
    expires_on: str
    surfaces: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUnitPrice(Command):
    """Write the price of an item of the take-off, in hundredths of the money used."""

    item: str
    price_cents: int
    per: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetDrainageTerms(Command):
    """Write the terms of a surface's drainage; a figure that is None stays as it is."""

    surface_id: str
    sand_um_per_h: int | None = None
    roughness_millionths: int | None = None
    rain_nm: int | None = None
    rain_min: int | None = None
    pipe_bore_nm: int | None = None
    pipe_fall_millionths: int | None = None
    soil_um_per_h: int | None = None
    impermeable_depth_nm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPlan(Command):
    """Read a plan file into the job: what it names is planned anew, the rest stays."""

    handler_module: ClassVar[str] = "crewapp.imports.plan.add_plan"

    path: str
