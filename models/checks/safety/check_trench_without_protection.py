"""trench_without_protection: a trench as deep as the limit, and nothing noted of it.

The depth is taken down to the trench's floor, whatever of it was shot.
"""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import LEVELS, collector_of_entry, every_collector, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.stretches import bad_runs
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, TRENCH_PROTECTION
from models.queries.grade.trench_depth import (
    ShotDepth,
    protection_limit_nm,
    protects,
    shot_depths,
)
from models.state.job_state import JobState


def _is_noted(state: JobState, subject: str, deep: ShotDepth) -> bool:
    """Whether protection was noted there for a trench at least as deep."""
    assert deep.depth_nm is not None
    return any(
        protects(noted, deep.station_nm, deep.depth_nm)
        for noted in state.bodies(TRENCH_PROTECTION, subject)
    )


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    collector = state.latest(COLLECTOR, subject)
    if not isinstance(collector, Collector):
        return
    limit_nm = protection_limit_nm(collector.design)
    depths = [one for one in shot_depths(state, subject) if one.depth_nm is not None]

    def is_bare(deep: ShotDepth) -> bool:
        assert deep.depth_nm is not None
        return deep.depth_nm >= limit_nm and not _is_noted(state, subject, deep)

    for run in bad_runs(depths, is_bare):
        deepest = max(run, key=lambda deep: deep.depth_nm or 0)
        yield make_finding(
            CHECK.id,
            subject,
            [deep.shot.entry for deep in run],
            place=str(run[0].station_nm),
            station_nm=deepest.station_nm,
            depth_nm=whole_nm(deepest.depth_nm or 0),
            limit_nm=limit_nm,
            shots=len(run),
        )


CHECK = Check(
    id="trench_without_protection",
    severity=Severity.STOP,
    problem="A trench is as deep as the limit or deeper, and no protection is noted "
    "for that depth.",
    why="The side of a trench falls without warning, and a man in it has no time to get out.",
    cure="DANGER: keep everybody out of the trench until a competent person has looked at it "
    "and it is sloped, shored or shielded as local rules ask, with a way out near at hand. "
    "Then note how it is protected.",
    message="At {station_nm:station} the trench is {depth_nm:length} deep; from "
    "{limit_nm:length} on its protection must be noted, by local rules and a competent person. "
    "Neighbouring stations where it is not: {shots}.",
    watches={**LEVELS, "layer_check": collector_of_entry, "trench_protection": collector_of_entry},
    subjects=every_collector,
    examine=_examine,
)
