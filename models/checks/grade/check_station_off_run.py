"""station_off_run: a shot or layer at a station that the collector does not have."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import collector_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.envelope import AnyEntry
from models.entries.index import EntryKind
from models.entries.kind_names import (
    COLLECTOR,
    GRADE_SHOT,
    HOLD_POINT,
    LAYER_CHECK,
    TRENCH_PROTECTION,
)
from models.queries.layout.measured_places import planned_run
from models.state.job_state import JobState

STRETCHES: tuple[EntryKind[LayerCheck | HoldPoint | TrenchProtection], ...] = (
    LAYER_CHECK,
    HOLD_POINT,
    TRENCH_PROTECTION,
)
"""Kinds of entry that are written from station to station."""


def _examine(state: JobState, collector_id: str) -> Iterator[Finding]:
    run = planned_run(state, collector_id)
    if run is None:
        return
    for entry, stations_nm in _stations(state, collector_id):
        off = [at for at in stations_nm if not run.holds(at)]
        if off:
            yield make_finding(
                CHECK.id,
                collector_id,
                [entry],
                place=entry.id,
                collector_id=collector_id,
                station_nm=off[-1],
                from_nm=run.start_nm,
                to_nm=run.end_nm,
            )


def _stations(state: JobState, collector_id: str) -> Iterator[tuple[AnyEntry, tuple[int, ...]]]:
    """Every entry that is written by station along a collector, with its stations in nm."""
    for shot in state.current(GRADE_SHOT, collector_id):
        yield shot, (shot.body.station_nm,)
    for kind in STRETCHES:
        for one in state.current(kind, collector_id):
            yield one, (one.body.from_nm, one.body.to_nm)


CHECK = Check(
    id="station_off_run",
    severity=Severity.FIX,
    problem="A reading is logged at a station that the collector does not have.",
    why="It counts for no place: the station or the collector is wrong, or the collector was "
    "made longer than its plan, and the as-built would leave that part out.",
    cure="Correct the station; where the pipe does run on, have the plan changed to its length.",
    message="Station {station_nm:station} is not on collector {collector_id}, which runs from "
    "{from_nm:station} to {to_nm:station}.",
    watches=dict.fromkeys(
        ("collector", "grade_shot", *(kind.name for kind in STRETCHES)), collector_of_entry
    ),
    subjects=lambda state: state.every_name(COLLECTOR),
    examine=_examine,
)
