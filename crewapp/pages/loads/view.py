"""Views of the Loads screen: the balance of each material, coils, and the day's loads."""

from __future__ import annotations

from dataclasses import dataclass

from crewapp.commands.query import Query
from crewapp.pages.passes.view import Coil, PassEntry
from models.units.job_units import Figures

WEIGHED = ("sand", "gravel")


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """Material in the balance: what came in, what went out, what is left, what the plan needs."""

    material_id: str
    use: str
    detail: str
    left: str
    status: str
    hopper_text: str = ""
    is_coiled: bool = False


@dataclass(frozen=True, slots=True)
class LoadsView:
    """View of the whole Loads screen."""

    figures: Figures
    materials: tuple[MaterialRow, ...] = ()
    coils: tuple[Coil, ...] = ()
    today: tuple[PassEntry, ...] = ()
    surface_id: str = ""
    surface_name: str = ""
    pass_id: str = ""
    spoil_text: str = ""
    next_coil: str = ""
    ticket_letters: str = ""

    def material(self, material_id: str) -> MaterialRow | None:
        """Return a material by its name."""
        return next((one for one in self.materials if one.material_id == material_id), None)

    @property
    def sands(self) -> tuple[MaterialRow, ...]:
        """The sands of the job."""
        return tuple(one for one in self.materials if one.use == "sand")


def amount_field(material: MaterialRow) -> str:
    """Return the field a ticket of this material states first: a weight or a length."""
    return "weight" if material.use in WEIGHED else "length"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowLoads(Query[LoadsView]):
    """Query for what the Loads page shows."""
