"""bedding_thin: too little bedding under the pipe, by levels or by the rule."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import LEVELS, collector_of_entry, every_collector, whole_nm
from models.checks.covering.layers import layers_of, stretch_finding
from models.checks.finding import Check, Finding, Severity
from models.checks.stretches import is_within
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.laid_pipe import newest_shots
from models.state.job_state import JobState


def _by_levels(state: JobState, subject: str, least_nm: int) -> Iterator[Finding]:
    shots = newest_shots(state, subject)
    floors = shots.get("trench_floor", {})
    for station_nm, top in sorted(shots.get("bedding", {}).items()):
        floor = floors.get(station_nm)
        if floor is not None and top.level_nm - floor.level_nm < least_nm:
            yield stretch_finding(
                CHECK.id,
                subject,
                [floor.entry, top.entry],
                str(station_nm),
                (station_nm, station_nm),
                thick_nm=whole_nm(top.level_nm - floor.level_nm),
                least_nm=least_nm,
            )


def _by_rule(state: JobState, subject: str, least_nm: int) -> Iterator[Finding]:
    bedding = [layer for layer in layers_of(state, subject) if layer.name == "bedding"]
    measured = [layer for layer in bedding if layer.thickness_nm is not None]
    for number, layer in enumerate(measured):
        later = [other.stretch for other in measured[number + 1 :]]
        thick_nm = layer.thickness_nm
        if thick_nm is not None and thick_nm < least_nm and not is_within(layer.stretch, later):
            yield stretch_finding(
                CHECK.id,
                subject,
                [layer.entry],
                layer.entry.id,
                layer.stretch,
                thick_nm=thick_nm,
                least_nm=least_nm,
            )


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    collector = state.latest(COLLECTOR, subject)
    if isinstance(collector, Collector):
        yield from _by_levels(state, subject, collector.design.bedding_least_nm)
        yield from _by_rule(state, subject, collector.design.bedding_least_nm)


CHECK = Check(
    id="bedding_thin",
    severity=Severity.STOP,
    problem="There is too little bedding under the pipe.",
    why="A pipe that rides on the trench floor follows every lump of it and bellies between.",
    cure="Dig the floor down or lift the pipe, and put the bedding in before going on.",
    message="From {from_nm:station} to {to_nm:station} the bedding is {thick_nm:depth} thick, "
    "{least_nm:depth} is the least.",
    watches={**LEVELS, "layer_check": collector_of_entry},
    subjects=every_collector,
    examine=_examine,
)
