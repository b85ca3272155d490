"""Handlers of work along the slits: passes, probes, turf, sand, water, pipe."""

from __future__ import annotations

from crewapp.commands.passes import (
    LayPipe,
    LogPass,
    LogProbe,
    LogTurf,
    PlaceSand,
    SetBlade,
    WaterIn,
)
from crewapp.handlers.entries import write
from crewapp.handlers.naming import free_name
from crewapp.job.dispatch import handles
from crewapp.job.open_job import JobChanges, OpenJob
from models.counted import CountedNoun
from models.entries.bodies.blades import BladeSet
from models.entries.bodies.passes import PassCut, PipeLaid, Probe, SandPlaced, TurfStrip, WateredIn
from models.entries.envelope import body_fields, build_kind
from models.entries.kind_names import MACHINE, PASS, SURFACE
from models.errors import CrewError
from models.queries.layout.drive_pieces import TypedPiece, with_pieces
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


class BeyondLineError(CrewError, ValueError):
    """A probe was to be logged beyond the end of its line."""

    code = "actions.off_line"
    sentence = (
        "Nothing was written: {along} is beyond the end of {line}, which is {length} long on "
        "pass {pass_id}. A distance from its start of 0 to {length} would be accepted."
    )


class UnknownLegError(CrewError, LookupError):
    """A blade was named that its machine does not have."""

    code = "actions.unknown_leg"
    sentence = (
        "Nothing was written: {machine} has no leg {leg}. It has {legs}; 0 would stand for all."
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


@handles(LogPass)
def log_pass(job: OpenJob, command: LogPass) -> JobChanges:
    """Log one drive of the machine; the pass is named here unless a name is given.

    Raises
    ------
    UnknownLineError
        If the plan has no such line; nothing is written.
    PassTakenError
        If the name was given to a pass before.
    """
    _need_lines(job, command.surface_id, command.line_ids)
    if command.pass_id and job.state.is_used(PASS, command.pass_id):
        raise PassTakenError(pass_id=command.pass_id, free=next_pass_id(job, command.surface_id))
    body = PassCut(
        pass_id=command.pass_id or next_pass_id(job, command.surface_id),
        surface_id=command.surface_id,
        line_ids=command.line_ids,
        machine_id=command.machine_id,
        length_nm=command.length_nm,
        length_typed=command.length_typed,
        shift_nm=command.shift_nm,
        shift_typed=command.shift_typed,
        run_min=command.run_min,
        note=command.note,
    )
    if command.more:  # named by whoever asked: a wrong name is refused
        body = build_kind(PASS, {**body_fields(body), **command.more})
    typed = {one.line_id: TypedPiece(one.length_nm, one.length_typed) for one in command.pieces}
    return write(job, with_pieces(job.state, body, typed))


@handles(LogProbe)
def log_probe(job: OpenJob, command: LogProbe) -> JobChanges:
    """Log one depth reading on a line of a pass.

    Raises
    ------
    UnknownPassError
        If the pass has not been logged; nothing is written.
    UnknownLineError
        If the pass did not cut the line.
    BeyondLineError
        If the line is not so long, cut or planned.
    """
    found = job.state.latest(PASS, command.pass_id)
    if found is None:
        raise UnknownPassError(pass_id=command.pass_id)
    if command.line_id not in found.line_ids:
        raise UnknownLineError(
            surface=f"pass {command.pass_id}", line=command.line_id, lines=", ".join(found.line_ids)
        )
    surface = job.state.latest(SURFACE, found.surface_id)
    line = probed_line(surface, command.line_id, found)
    if not line.holds(command.along_nm):
        along, length = job.figures.show_distinct("length", [command.along_nm, line.end_nm])
        raise BeyondLineError(
            along=along, line=command.line_id, length=length, pass_id=command.pass_id
        )
    return write(
        job,
        Probe(
            pass_id=command.pass_id,
            line_id=command.line_id,
            along_nm=command.along_nm,
            along_typed=command.along_typed,
            depth_nm=command.depth_nm,
            depth_typed=command.depth_typed,
            width_nm=command.width_nm,
            width_typed=command.width_typed,
        ),
    )


@handles(LogTurf)
def log_turf(job: OpenJob, command: LogTurf) -> JobChanges:
    """Log the turf strip lifted, put back or rolled over lines."""
    _need_lines(job, command.surface_id, command.line_ids)
    return write(
        job,
        TurfStrip(
            surface_id=command.surface_id,
            line_ids=command.line_ids,
            step=command.step,
            pass_id=command.pass_id,
            sod_nm=command.sod_nm,
            sod_typed=command.sod_typed,
        ),
    )


@handles(SetBlade)
def set_blade(job: OpenJob, command: SetBlade) -> JobChanges:
    """Log that a blade of a machine, or all of them, was changed, sharpened or set.

    Raises
    ------
    UnknownLegError
        If the machine of the plan has no such leg; nothing is written.
    """
    machine = job.state.latest(MACHINE, command.machine_id)
    if machine is not None and command.leg > max(machine.legs, 1):
        legs = f"{CountedNoun(max(machine.legs, 1)):leg|legs}"
        raise UnknownLegError(machine=command.machine_id, leg=command.leg, legs=legs)
    return write(
        job,
        BladeSet(
            machine_id=command.machine_id, leg=command.leg, what=command.what, note=command.note
        ),
    )


@handles(PlaceSand)
def place_sand(job: OpenJob, command: PlaceSand) -> JobChanges:
    """Log sand put into the slits of a pass, by volume or by mass."""
    if command.pass_id and job.state.latest(PASS, command.pass_id) is None:
        raise UnknownPassError(pass_id=command.pass_id)
    return write(
        job,
        SandPlaced(
            surface_id=command.surface_id,
            pass_id=command.pass_id,
            material_id=command.material_id,
            volume_pl=command.volume_pl,
            mass_ug=command.mass_ug,
            amount_typed=command.amount_typed,
            hoppers_tenths=command.hoppers_tenths,
            moisture=command.moisture,
        ),
    )


@handles(WaterIn)
def water_in(job: OpenJob, command: WaterIn) -> JobChanges:
    """Log the sand of a pass, or of a surface, watered in."""
    return write(
        job, WateredIn(surface_id=command.surface_id, pass_id=command.pass_id, note=command.note)
    )


@handles(LayPipe)
def lay_pipe(job: OpenJob, command: LayPipe) -> JobChanges:
    """Log pipe laid in a piped slit or in a collector."""
    if command.line_id:
        _need_lines(job, command.surface_id, (command.line_id,))
    return write(
        job,
        PipeLaid(
            surface_id=command.surface_id,
            line_id=command.line_id,
            collector_id=command.collector_id,
            material_id=command.material_id,
            coil_id=command.coil_id,
            length_nm=command.length_nm,
            length_typed=command.length_typed,
            connected=command.connected,
            end_capped=command.end_capped,
        ),
    )


def _need_lines(job: OpenJob, surface_id: str, line_ids: tuple[str, ...]) -> None:
    surface = job.state.latest(SURFACE, surface_id)
    planned = [line.line_id for line in surface.lines] if surface else []
    for line_id in line_ids:
        if planned and line_id not in planned:
            shown = ", ".join(planned[:6]) + (" ..." if len(planned) > 6 else "")
            raise UnknownLineError(surface=surface_id, line=line_id, lines=shown)
