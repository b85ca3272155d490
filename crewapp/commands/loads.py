"""Commands of loads in, hoppers and spoil."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.command import Command


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeDelivery(Command):
    """Log a load in, with the figure on its ticket: a mass, a volume or a length."""

    material_id: str
    ticket: str = ""
    mass_ug: int | None = None
    volume_pl: int | None = None
    length_nm: int | None = None
    amount_typed: str = ""
    coil_id: str = ""
    moisture: str | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceHopper(Command):
    """Log hopper loads of sand, full ones unless a share is given."""

    surface_id: str
    material_id: str
    pass_id: str = ""
    loads_tenths: int = 10
    moisture: str = "dry"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetHopper(Command):
    """Write down what one full hopper of a material holds; its other facts stay."""

    material_id: str
    hopper_pl: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HaulSpoil(Command):
    """Log a load of spoil taken away."""

    volume_pl: int
    volume_typed: str = ""
    surface_id: str = ""
    to: str = ""
