"""What the crew does along the slits: passes, probes, turf, sand, water, pipe."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crewapp.handlers.entries import write
from crewapp.handlers.naming import free_name
from crewapp.job.open_job import Changed, OpenJob
from models.entries.kind_names import PASS, SURFACE
from models.errors import CrewError
from models.queries.layout.measured_places import probed_line
from models.state.indexes import PASSES_ON


class UnknownLineError(CrewError, LookupError):
    """A line was named that the plan of its surface does not have."""

    code = "actions.unknown_line"
    sentence = (
        "Nothing was written: {surface} has no line {line} on its plan. Its lines are {lines}."
    )


class UnknownPassError(CrewError, LookupError):
    """A pass was named that has not been logged."""

    code = "actions.unknown_pass"
    sentence = "Nothing was written: there is no pass {pass_id} yet. Log the pass first."


class OffLineError(CrewError, ValueError):
    """A probe was to be logged beyond the end of its line."""

    code = "actions.off_line"
    sentence = (
        "Nothing was written: {along} is beyond the end of {line}, which is {length} long on "
        "pass {pass_id}. A distance from its start of 0 to {length} would be accepted."
    )


class PassTakenError(CrewError, ValueError):
    """A pass was given a name that probes and sand of another one bear."""

    code = "actions.pass_taken"
    sentence = (
        "Nothing was written: {pass_id} is the name of another pass, and its probes and sand "
        "would count for this one. {free} would be accepted."
    )


def next_pass_id(job: OpenJob, surface_id: str) -> str:
    """Name for the next pass on a surface: G7-01, G7-02 and so on.

    The name of a struck pass is not given again: its probes and sand still bear it. On a
    tablet that joined the job the name carries its mark.
    """
    number = len(job.state.current(PASSES_ON, surface_id)) + 1
    plain = surface_id.replace("{", "{{").replace("}", "}}")
    return free_name(job, PASS, number, f"{plain}-{{number:02d}}")


def log_pass(
    job: OpenJob,
    *,
    surface_id: str,
    line_ids: tuple[str, ...],
    length_nm: int,
    length_typed: str,
    machine_id: str = "",
    pass_id: str = "",
    shift_nm: int | None = None,
    shift_typed: str = "",
    run_min: int | None = None,
    note: str = "",
    more: Mapping[str, Any] | None = None,
) -> Changed:
    """Log one drive of the machine; the pass is named here unless a name is given.

    ``more`` are the answers to further questions about a pass, by the fields of its body.

    Raises
    ------
    UnknownLineError
        If the plan has no such line; nothing is written.
    PassTakenError
        If the name was given to a pass before.
    """
    _need_lines(job, surface_id, line_ids)
    if pass_id and job.state.is_used(PASS, pass_id):
        raise PassTakenError(pass_id=pass_id, free=next_pass_id(job, surface_id))
    return write(
        job,
        "pass",
        pass_id=pass_id or next_pass_id(job, surface_id),
        surface_id=surface_id,
        line_ids=line_ids,
        machine_id=machine_id,
        length_nm=length_nm,
        length_typed=length_typed,
        shift_nm=shift_nm,
        shift_typed=shift_typed,
        run_min=run_min,
        note=note,
        **(more or {}),
    )


def log_probe(
    job: OpenJob,
    *,
    pass_id: str,
    line_id: str,
    along_nm: int,
    depth_nm: int,
    depth_typed: str,
    along_typed: str = "",
    width_nm: int | None = None,
    width_typed: str = "",
) -> Changed:
    """Log one depth reading on a line of a pass.

    Raises
    ------
    UnknownPassError
        If the pass has not been logged; nothing is written.
    UnknownLineError
        If the pass did not cut the line.
    OffLineError
        If the line is not so long, cut or planned.
    """
    found = job.state.latest(PASS, pass_id)
    if found is None:
        raise UnknownPassError(pass_id=pass_id)
    if line_id not in found.line_ids:
        raise UnknownLineError(
            surface=f"pass {pass_id}", line=line_id, lines=", ".join(found.line_ids)
        )
    surface = job.state.latest(SURFACE, found.surface_id)
    line = probed_line(surface, line_id, found.length_nm)
    if not line.holds(along_nm):
        along, length = job.figures.apart("length", [along_nm, line.end_nm])
        raise OffLineError(along=along, line=line_id, length=length, pass_id=pass_id)
    return write(
        job,
        "probe",
        pass_id=pass_id,
        line_id=line_id,
        along_nm=along_nm,
        along_typed=along_typed,
        depth_nm=depth_nm,
        depth_typed=depth_typed,
        width_nm=width_nm,
        width_typed=width_typed,
    )


def log_turf(
    job: OpenJob, *, surface_id: str, line_ids: tuple[str, ...], step: str, pass_id: str = ""
) -> Changed:
    """Log the turf strip lifted, put back or rolled over lines."""
    _need_lines(job, surface_id, line_ids)
    return write(
        job, "turf_strip", surface_id=surface_id, line_ids=line_ids, step=step, pass_id=pass_id
    )


def place_sand(
    job: OpenJob,
    *,
    surface_id: str,
    material_id: str,
    pass_id: str = "",
    volume_pl: int | None = None,
    mass_ug: int | None = None,
    amount_typed: str = "",
    hoppers_tenths: int | None = None,
    moisture: str = "dry",
) -> Changed:
    """Log sand put into the slits of a pass, by volume or by mass."""
    if pass_id and job.state.latest(PASS, pass_id) is None:
        raise UnknownPassError(pass_id=pass_id)
    return write(
        job,
        "sand_placed",
        surface_id=surface_id,
        pass_id=pass_id,
        material_id=material_id,
        volume_pl=volume_pl,
        mass_ug=mass_ug,
        amount_typed=amount_typed,
        hoppers_tenths=hoppers_tenths,
        moisture=moisture,
    )


def water_in(job: OpenJob, *, surface_id: str, pass_id: str = "", note: str = "") -> Changed:
    """Log the sand of a pass, or of a surface, watered in."""
    return write(job, "watered_in", surface_id=surface_id, pass_id=pass_id, note=note)


def lay_pipe(
    job: OpenJob,
    *,
    material_id: str,
    length_nm: int,
    length_typed: str,
    surface_id: str = "",
    line_id: str = "",
    collector_id: str = "",
    coil_id: str = "",
    connected: bool = False,
    end_capped: bool = False,
) -> Changed:
    """Log pipe laid in a piped slit or in a collector."""
    if line_id:
        _need_lines(job, surface_id, (line_id,))
    return write(
        job,
        "pipe_laid",
        surface_id=surface_id,
        line_id=line_id,
        collector_id=collector_id,
        material_id=material_id,
        coil_id=coil_id,
        length_nm=length_nm,
        length_typed=length_typed,
        connected=connected,
        end_capped=end_capped,
    )


def _need_lines(job: OpenJob, surface_id: str, line_ids: tuple[str, ...]) -> None:
    surface = job.state.latest(SURFACE, surface_id)
    planned = [line.line_id for line in surface.lines] if surface else []
    for line_id in line_ids:
        if planned and line_id not in planned:
            shown = ", ".join(planned[:6]) + (" ..." if len(planned) > 6 else "")
            raise UnknownLineError(surface=surface_id, line=line_id, lines=shown)
