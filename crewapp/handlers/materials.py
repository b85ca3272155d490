"""Handlers of tests of a material: sieve sheets, weighed boxes, bulking."""

from __future__ import annotations

from pathlib import Path

from crewapp.commands.materials import LogBoxWeighing, LogBulking, LogSieveTest, TakeSieveSheet
from crewapp.handlers.entries import write
from crewapp.handlers.loads import need_material
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.tablet.read_files import read_bytes
from models.entries.bodies.material_tests import BoxWeighing, BulkingTest, SieveTest
from models.readers.outlines.sieve_csv import read_sieve_csv


@handles(LogSieveTest)
def log_sieve_test(job: OpenJob, command: LogSieveTest) -> JobChanges:
    """Log a sieve sheet: openings in um (0 is the pan) with what each held, largest first.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, command.material_id)
    weights = [{"opening_um": um, "retained_mg": mg} for um, mg in command.held]
    return write(
        job,
        SieveTest(
            material_id=command.material_id,
            weights=weights,
            edition=command.edition,
            laboratory=command.laboratory,
            note=command.note,
        ),
    )


@handles(TakeSieveSheet)
def take_sieve_sheet(job: OpenJob, command: TakeSieveSheet) -> JobChanges:
    """Log the sieve sheet that a CSV file holds; its name is kept as whose sheet it is.

    Raises
    ------
    UnknownMaterialError, FileUnreadableError, PlanFileError
        If the job has no such material, or the file is no sieve sheet; nothing is written.
    """
    need_material(job, command.material_id)
    sheet = read_sieve_csv(read_bytes(Path(command.path), "A sieve sheet as CSV"))
    return log_sieve_test(
        job,
        LogSieveTest(
            material_id=command.material_id,
            held=sheet.held,
            edition=command.edition,
            laboratory=Path(command.path).name,
        ),
    )


@handles(LogBoxWeighing)
def log_box_weighing(job: OpenJob, command: LogBoxWeighing) -> JobChanges:
    """Log a box of known volume, filled loose and weighed, less the box itself.

    From then on masses of the material become volumes through this box.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, command.material_id)
    return write(
        job,
        BoxWeighing(
            material_id=command.material_id,
            volume_pl=command.volume_pl,
            volume_typed=command.volume_typed,
            mass_ug=command.mass_ug,
            mass_typed=command.mass_typed,
            moisture=command.moisture,
        ),
    )


@handles(LogBulking)
def log_bulking(job: OpenJob, command: LogBulking) -> JobChanges:
    """Log the height of moist sand in a jar, and of the same sand flooded.

    Raises
    ------
    UnknownMaterialError, EntryRefusedError
        If the job has no such material, or a figure does not fit; nothing is written.
    """
    need_material(job, command.material_id)
    return write(
        job,
        BulkingTest(
            material_id=command.material_id,
            moist_nm=command.moist_nm,
            moist_typed=command.moist_typed,
            flooded_nm=command.flooded_nm,
            flooded_typed=command.flooded_typed,
        ),
    )
