"""Handlers of loads in and out: tickets, coils, hopper loads, spoil."""

from __future__ import annotations

from crewapp.commands.loads import HaulSpoil, PlaceHopper, SetHopper, TakeDelivery
from crewapp.handlers.entries import write
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, NewEntry, OpenJob
from models.entries.bodies.job import Material
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.passes import SandPlaced
from models.entries.envelope import body_fields
from models.entries.kind_names import MATERIAL
from models.errors import CrewError


class UnknownMaterialError(CrewError, LookupError):
    """A load names a material that the job does not have."""

    code = "actions.unknown_material"
    sentence = (
        "Nothing was written: this job has no material {material}. Its materials are {materials}."
    )


class HopperUnknownError(CrewError, ValueError):
    """A hopper load was tapped before anybody entered what the hopper holds."""

    code = "actions.hopper_unknown"
    sentence = (
        "Nothing was written: {material} has no hopper volume yet, so a load has no amount. "
        "Enter what one full hopper holds, or type the amount."
    )


@handles(TakeDelivery)
def take_delivery(job: OpenJob, command: TakeDelivery) -> JobChanges:
    """Log a load in, with the figure on its ticket: a mass, a volume or a length."""
    need_material(job, command.material_id)
    return write(
        job,
        Delivery(
            material_id=command.material_id,
            ticket=command.ticket,
            mass_ug=command.mass_ug,
            volume_pl=command.volume_pl,
            length_nm=command.length_nm,
            amount_typed=command.amount_typed,
            coil_id=command.coil_id,
            moisture=command.moisture,
            note=command.note,
        ),
    )


@handles(PlaceHopper)
def place_hopper(job: OpenJob, command: PlaceHopper) -> JobChanges:
    """Log hopper loads of sand, full ones unless a share is given.

    Raises
    ------
    HopperUnknownError
        If the material has no hopper volume; nothing is written.
    """
    material = need_material(job, command.material_id)
    if not material.hopper_pl:
        raise HopperUnknownError(material=command.material_id)
    whole, tenths = divmod(command.loads_tenths, 10)
    return write(
        job,
        SandPlaced(
            surface_id=command.surface_id,
            pass_id=command.pass_id,
            material_id=command.material_id,
            volume_pl=material.hopper_pl * command.loads_tenths // 10,
            amount_typed=f"{whole}.{tenths} hoppers",
            hoppers_tenths=command.loads_tenths,
            moisture=command.moisture,
        ),
    )


@handles(SetHopper)
def set_hopper(job: OpenJob, command: SetHopper) -> JobChanges:
    """Write down what one full hopper of a material holds; its other facts stay."""
    material = need_material(job, command.material_id)
    body = Material(**{**body_fields(material), "hopper_pl": command.hopper_pl})
    before = job.state.current(MATERIAL, command.material_id)[-1]
    return job.ink(NewEntry(body, follows=(before.id,)))


@handles(HaulSpoil)
def haul_spoil(job: OpenJob, command: HaulSpoil) -> JobChanges:
    """Log a load of spoil taken away."""
    return write(
        job,
        SpoilAway(
            volume_pl=command.volume_pl,
            volume_typed=command.volume_typed,
            surface_id=command.surface_id,
            to=command.to,
        ),
    )


def need_material(job: OpenJob, material_id: str) -> Material:
    """Return a material of the job by its name.

    Raises
    ------
    UnknownMaterialError
        If the job has none of that name.
    """
    found = job.state.latest(MATERIAL, material_id)
    if not isinstance(found, Material):
        names = ", ".join(job.state.every_name(MATERIAL)) or "none yet"
        raise UnknownMaterialError(material=material_id, materials=names)
    return found
