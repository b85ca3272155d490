"""What comes in and goes out: tickets, coils, hopper loads, spoil."""

from __future__ import annotations

from crewapp.handlers.entries import write
from crewapp.job.open_job import Changed, OpenJob, Writing
from models.entries.bodies.job import Material
from models.entries.envelope import body_fields, build_body
from models.entries.kind_names import MATERIAL
from models.errors import CrewError


class UnknownMaterialError(CrewError, LookupError):
    """A load names a material that the job does not have."""

    code = "actions.unknown_material"
    sentence = (
        "Nothing was written: this job has no material {material}. Its materials are {materials}."
    )


class HopperUnknownError(CrewError, ValueError):
    """A hopper load was tapped, but nobody said what the hopper holds."""

    code = "actions.hopper_unknown"
    sentence = (
        "Nothing was written: {material} has no hopper volume yet, so a load has no amount. "
        "Enter what one full hopper holds, or type the amount."
    )


def take_delivery(
    job: OpenJob,
    *,
    material_id: str,
    ticket: str = "",
    mass_ug: int | None = None,
    volume_pl: int | None = None,
    length_nm: int | None = None,
    amount_typed: str = "",
    coil_id: str = "",
    moisture: str | None = None,
    note: str = "",
) -> Changed:
    """Log a load in, with the figure on its ticket: a mass, a volume or a length."""
    need_material(job, material_id)
    return write(
        job,
        "delivery",
        material_id=material_id,
        ticket=ticket,
        mass_ug=mass_ug,
        volume_pl=volume_pl,
        length_nm=length_nm,
        amount_typed=amount_typed,
        coil_id=coil_id,
        moisture=moisture,
        note=note,
    )


def place_hopper(
    job: OpenJob,
    *,
    surface_id: str,
    material_id: str,
    pass_id: str = "",
    loads_tenths: int = 10,
    moisture: str = "dry",
) -> Changed:
    """Log hopper loads of sand, full ones unless a share is given.

    Raises
    ------
    HopperUnknownError
        If the material has no hopper volume; nothing is written.
    """
    material = need_material(job, material_id)
    if not material.hopper_pl:
        raise HopperUnknownError(material=material_id)
    whole, tenths = divmod(loads_tenths, 10)
    return write(
        job,
        "sand_placed",
        surface_id=surface_id,
        pass_id=pass_id,
        material_id=material_id,
        volume_pl=material.hopper_pl * loads_tenths // 10,
        amount_typed=f"{whole}.{tenths} hoppers",
        hoppers_tenths=loads_tenths,
        moisture=moisture,
    )


def set_hopper(job: OpenJob, *, material_id: str, hopper_pl: int) -> Changed:
    """Write down what one full hopper of a material holds; its other facts stay."""
    material = need_material(job, material_id)
    body = build_body("material", {**body_fields(material), "hopper_pl": hopper_pl})
    before = job.state.current(MATERIAL, material_id)[-1]
    return job.ink(Writing(body, follows=(before.id,)))


def haul_spoil(
    job: OpenJob, *, volume_pl: int, volume_typed: str = "", surface_id: str = "", to: str = ""
) -> Changed:
    """Log a load of spoil taken away."""
    return write(
        job,
        "spoil",
        volume_pl=volume_pl,
        volume_typed=volume_typed,
        surface_id=surface_id,
        to=to,
    )


def need_material(job: OpenJob, material_id: str) -> Material:
    """A material of the job by its name.

    Raises
    ------
    UnknownMaterialError
        If the job has none of that name.
    """
    found = job.state.latest(MATERIAL, material_id)
    if not isinstance(found, Material):
        names = ", ".join(job.state.all_names(MATERIAL)) or "none yet"
        raise UnknownMaterialError(material=material_id, materials=names)
    return found
