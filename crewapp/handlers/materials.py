"""What is found out about a material: sieve sheets, weighed boxes, bulking."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from crewapp.handlers.entries import write
from crewapp.handlers.loads import need_material
from crewapp.job.open_job import Changed, OpenJob
from crewapp.tablet.read_files import read_bytes
from models.readers.outlines.sieve_csv import read_sieve_csv


def log_sieve_test(
    job: OpenJob,
    *,
    material_id: str,
    held: Sequence[tuple[int, int]],
    edition: str = "",
    laboratory: str = "",
    note: str = "",
) -> Changed:
    """Log a sieve sheet: openings in um (0 is the pan) with what each held, largest first.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, material_id)
    weights = [{"opening_um": um, "retained_mg": mg} for um, mg in held]
    return write(
        job,
        "sieve_test",
        material_id=material_id,
        weights=weights,
        edition=edition,
        laboratory=laboratory,
        note=note,
    )


def take_sieve_sheet(job: OpenJob, *, material_id: str, path: str, edition: str = "") -> Changed:
    """Log the sieve sheet that a CSV file holds; its name is kept as whose sheet it is.

    Raises
    ------
    UnknownMaterialError, FileUnreadableError, PlanFileError
        If the job has no such material, or the file is no sieve sheet; nothing is written.
    """
    need_material(job, material_id)
    sheet = read_sieve_csv(read_bytes(Path(path), "A sieve sheet as CSV"))
    return log_sieve_test(
        job,
        material_id=material_id,
        held=sheet.held,
        edition=edition,
        laboratory=Path(path).name,
    )


def log_box_weighing(
    job: OpenJob,
    *,
    material_id: str,
    volume_pl: int,
    mass_ug: int,
    volume_typed: str = "",
    mass_typed: str = "",
    moisture: str = "dry",
) -> Changed:
    """Log a box of known volume, filled loose and weighed, less the box itself.

    From then on masses of the material become volumes through this box.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, material_id)
    return write(
        job,
        "box_weighing",
        material_id=material_id,
        volume_pl=volume_pl,
        volume_typed=volume_typed,
        mass_ug=mass_ug,
        mass_typed=mass_typed,
        moisture=moisture,
    )


def log_bulking(
    job: OpenJob,
    *,
    material_id: str,
    moist_nm: int,
    flooded_nm: int,
    moist_typed: str = "",
    flooded_typed: str = "",
) -> Changed:
    """Log the height of moist sand in a jar, and of the same sand flooded.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, material_id)
    return write(
        job,
        "bulking_test",
        material_id=material_id,
        moist_nm=moist_nm,
        moist_typed=moist_typed,
        flooded_nm=flooded_nm,
        flooded_typed=flooded_typed,
    )
