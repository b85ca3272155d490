"""depth_drifting: the last probes of a machine all lie on one side of design depth."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import Reading, is_depth_out, pass_work
from models.entries import id_fields
from models.entries.bodies.passes import PassCut
from models.entries.envelope import AnyEntry
from models.entries.keys import SurfaceMachine, split_key, surface_machine
from models.entries.kind_names import PASS
from models.science.quality.drift import Side, find_drifts
from models.state.indexes import PASSES_BY, PASSES_ON
from models.state.job_state import JobState

RUN = 8
"""Readings in a row that make a drift: control-chart practice, from memory."""

PASSES_BACK = 40
"""Passes looked back over at most, so that a look costs the same on a long job."""


def cutters_of_pass(state: JobState, entry: AnyEntry) -> Iterator[str]:
    """Machine and surface of the pass that an entry names."""
    cuts = state.bodies(PASS, id_fields.pass_id_of(entry.body))
    for cut in (entry.body, *cuts):
        if isinstance(cut, PassCut):
            yield _cutter(cut)


def cutters_of_surface(state: JobState, entry: AnyEntry) -> Iterator[str]:
    """Every machine that cut on a surface."""
    for cut in state.bodies(PASSES_ON, id_fields.surface_id_of(entry.body)):
        yield _cutter(cut)


def every_cutter(state: JobState) -> Iterator[SurfaceMachine]:
    """Every machine on every surface that it cut."""
    return iter(state.every_name(PASSES_BY))


def examine(state: JobState, subject: SurfaceMachine) -> Iterator[Finding]:
    """Look for a run at the end of what a machine cut on a surface."""
    surface_id, machine_id = split_key(subject)
    newest = _newest_readings(state, subject)
    if len(newest) < RUN or any(map(is_depth_out, newest)):
        return  # a reading that is out has a flag of its own
    off_nm = [reading.probe.depth_nm - reading.pattern.depth_nm for reading in newest]
    for drift in find_drifts(off_nm, target_nm=0, run=RUN):
        last = newest[-1].entry
        yield make_finding(
            "depth_drifting",
            subject,
            [reading.entry for reading in newest],
            last.day,
            machine_id=machine_id or "the machine",
            surface_id=surface_id,
            readings=RUN,
            side="shallower" if drift.side is Side.BELOW else "deeper",
        )


def _newest_readings(state: JobState, subject: SurfaceMachine) -> list[Reading]:
    """The last readings of a machine on a surface, oldest first."""
    readings: list[Reading] = []
    for entry in reversed(state.current(PASSES_BY, subject)[-PASSES_BACK:]):
        work = pass_work(state, entry.body.pass_id)
        if work is None or work.entry is not entry:
            continue
        readings.extend(sorted(work.readings, key=lambda one: state.place_of(one.entry))[::-1])
        if len(readings) >= RUN:
            break
    return readings[:RUN][::-1]


def _cutter(cut: PassCut) -> SurfaceMachine:
    return surface_machine(cut.surface_id, cut.machine_id)


CHECK = Check(
    id="depth_drifting",
    severity=Severity.NOTE,
    problem="Depth drifts to one side.",
    why="A blade that wears, or a wheel that creeps, shows as a run of readings on one side "
    "long before one is out.",
    cure="Look at the blade and the depth wheel of the machine now, and set it to design depth "
    "before the next pass.",
    message="{machine_id} on {surface_id}: the last {readings} probes or more are all {side} than "
    "design, none of them out yet.",
    watches={
        "pass": cutters_of_pass,
        "probe": cutters_of_pass,
        "surface": cutters_of_surface,
    },
    subjects=every_cutter,
    examine=examine,
)
