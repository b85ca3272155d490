"""invert_above_inlet: the collector lies above the slits that should drain into it.

The pipe of a slit lies on the slit's floor, and the floor is the depth of its
pattern below the planned ground where it joins. Where along the collector a
slit joins is not written down, so a station counts as wrong only when its
invert is above even the shallowest slits of the surfaces that drain there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import LEVELS, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SURFACE
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.laid_pipe import Fault, LaidShot, laid_pipe
from models.science.levelling.laser_plane import Length
from models.state.indexes import DRAINS_TO
from models.state.job_state import JobState


def _collector_of(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every collector that a surface drains to, or did by an older plan of it."""
    surface = entry.body
    assert isinstance(surface, Surface)  # it watches no other kind
    plans = (surface, *state.bodies(SURFACE, surface.surface_id))
    return {plan.collector_id for plan in plans if plan.collector_id}


def _shallowest_nm(state: JobState, collector_id: str) -> int | None:
    """Depth of the shallowest slits that join the collector; None where none is planned."""
    depths = []
    for surface in state.bodies(DRAINS_TO, collector_id):
        newest = state.latest(SURFACE, surface.surface_id)
        if isinstance(newest, Surface) and newest.collector_id == collector_id:
            joining = newest.piped_slits or newest.sand_slits
            depths += [joining.depth_nm] if joining else []
    return min(depths, default=None)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    pipe = laid_pipe(state, subject)
    depth_nm = _shallowest_nm(state, subject)
    if pipe is None or depth_nm is None:
        return
    ground_at = ground_over(state, subject)
    above: list[tuple[Length, LaidShot]] = []
    for shot in pipe.shots:
        ground_nm = ground_at(shot.at.station_nm)
        # a shot that is off grade is told elsewhere, and judged again once it has been moved
        if ground_nm is not None and shot.fault is Fault.NONE:
            above.append((shot.at.level_nm - (ground_nm - depth_nm), shot))
    above = [one for one in above if one[0] > 0]
    if above:
        above_nm, worst = max(above, key=lambda one: one[0])
        yield make_finding(
            CHECK.id,
            subject,
            [shot.at.entry for _, shot in above],
            station_nm=worst.at.station_nm,
            above_nm=whole_nm(above_nm),
            depth_nm=depth_nm,
            shots=len(above),
        )


CHECK = Check(
    id="invert_above_inlet",
    severity=Severity.STOP,
    problem="The collector lies higher than the floor of the slits that drain to it.",
    why="Water does not run uphill: the slits stand full to the level of the pipe.",
    cure="Lower the collector, or ask whoever designed it whether the slits join elsewhere.",
    message="At {station_nm:station} the invert is {above_nm:fine} above the floor of slits "
    "{depth_nm:depth} deep. Stations where it is: {shots}.",
    watches={**LEVELS, "surface": _collector_of},
    subjects=every_collector,
    examine=_examine,
)
