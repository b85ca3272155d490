"""trench_without_protection: a trench as deep as the plan's limit, and nothing noted of it."""

from __future__ import annotations

from collections.abc import Iterator

from models.calculations.laser import Length
from models.checks.finding import Check, Finding, Severity
from models.checks.found import found
from models.checks.stretches import runs_of
from models.checks.watching import LEVELS, collector_named, every_collector, whole
from models.entries.collector_work import TrenchProtection
from models.entries.surface import Collector
from models.ground_cover import ground_over
from models.job_state import JobState
from models.laid_pipe import StandingShot, inverts, standing

_Deep = tuple[StandingShot, Length]


def _depths(state: JobState, subject: str, bore_nm: int) -> Iterator[_Deep]:
    """Depth of the trench by station; where its floor was not shot, down to the invert."""
    ground_at = ground_over(state, subject)
    floors = {shot.station_nm: shot for shot in inverts(state, subject, bore_nm)}
    floors.update(standing(state, subject).get("trench_floor", {}))
    for station_nm in sorted(floors):
        ground_nm = ground_at(station_nm)
        if ground_nm is not None:
            yield floors[station_nm], ground_nm - floors[station_nm].level_nm


def _is_noted(state: JobState, subject: str, deep: _Deep) -> bool:
    """Whether protection was noted there for a trench at least as deep."""
    shot, depth_nm = deep
    return any(
        min(noted.from_nm, noted.to_nm) <= shot.station_nm <= max(noted.from_nm, noted.to_nm)
        and depth_nm <= noted.depth_nm
        for noted in state.bodies("trench_protection", subject)
        if isinstance(noted, TrenchProtection)
    )


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    collector = state.latest("collector", subject)
    if not isinstance(collector, Collector):
        return
    limit_nm = collector.design.protection_depth_nm

    def is_bare(deep: _Deep) -> bool:
        return deep[1] >= limit_nm and not _is_noted(state, subject, deep)

    depths = list(_depths(state, subject, collector.design.bore_nm))
    for run in runs_of(depths, is_bare):
        deepest = max(run, key=lambda deep: deep[1])
        yield found(
            CHECK.id,
            subject,
            [shot.entry for shot, _ in run],
            place=str(run[0][0].station_nm),
            station_nm=deepest[0].station_nm,
            depth_nm=whole(deepest[1]),
            limit_nm=limit_nm,
            shots=len(run),
        )


CHECK = Check(
    id="trench_without_protection",
    severity=Severity.STOP,
    problem="A trench is as deep as the plan's limit or deeper, and no protection is noted "
    "for that depth.",
    why="The side of a trench falls without warning, and a man in it has no time to get out.",
    cure="DANGER: keep everybody out of the trench until a competent person has looked at it "
    "and it is sloped, shored or shielded as local rules ask, with a way out near at hand. "
    "Then note how it is protected.",
    message="At {station_nm:station} the trench is {depth_nm:length} deep; from "
    "{limit_nm:length} on its protection must be noted, by local rules and a competent person. "
    "Neighbouring stations where it is not: {shots}.",
    watches={**LEVELS, "trench_protection": collector_named},
    subjects=every_collector,
    examine=_examine,
)
