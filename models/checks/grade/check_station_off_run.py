"""A shot or a layer is logged at a station that the collector does not have."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from models.checks.affected_together import collector_named
from models.checks.finding import Check, Finding, Severity
from models.checks.make_finding import found
from models.entries.kind_names import BY_NAME, COLLECTOR
from models.queries.layout.measured_places import planned_run
from models.state.job_state import JobState

STATIONS: dict[str, tuple[str, ...]] = {
    "grade_shot": ("station_nm",),
    "layer_check": ("from_nm", "to_nm"),
    "hold_point": ("from_nm", "to_nm"),
    "trench_protection": ("from_nm", "to_nm"),
}
"""Kinds of entry that are written by station, and the fields that hold one."""


def _examine(state: JobState, collector_id: str) -> Iterator[Finding]:
    run = planned_run(state, collector_id)
    if run is None:
        return
    for kind, fields in STATIONS.items():
        for entry in state.current(BY_NAME[kind], collector_id):
            body: Any = entry.body
            off = [at for name in fields if not run.holds(at := getattr(body, name))]
            if off:
                yield found(
                    CHECK.id,
                    collector_id,
                    [entry],
                    place=entry.id,
                    collector_id=collector_id,
                    station_nm=off[-1],
                    from_nm=run.start_nm,
                    to_nm=run.end_nm,
                )


CHECK = Check(
    id="station_off_run",
    severity=Severity.FIX,
    problem="A reading is logged at a station that the collector does not have.",
    why="It counts for no place: the station or the collector is wrong, or the collector was "
    "made longer than its plan, and the as-built would leave that part out.",
    cure="Correct the station; where the pipe does run on, have the plan changed to its length.",
    message="Station {station_nm:station} is not on collector {collector_id}, which runs from "
    "{from_nm:station} to {to_nm:station}.",
    watches=dict.fromkeys(("collector", *STATIONS), collector_named),
    subjects=lambda state: state.all_names(COLLECTOR),
    examine=_examine,
)
