"""end_not_tied: a collector is covered, and an end of it is not tied to two permanent points."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.affected_together import collector_of_entry, every_collector
from models.checks.covering.layers import layers_of, planned_layers
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.planning import Tie
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR
from models.state.indexes import TIES_OF
from models.state.job_state import JobState

ENOUGH = 2


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    collector = state.latest(COLLECTOR, subject)
    layers = planned_layers(state, subject)
    if not isinstance(collector, Collector) or not layers:
        return
    design = collector.design
    ends = {"outlet": design.start_nm, "head": design.start_nm + design.length_nm}
    if design.stationed_from == "head":
        ends = dict(zip(ends, reversed(ends.values()), strict=True))
    # checks of the last layer alone: a shot on a pipe tells where it lies, not that it is covered
    covering = [one for one in layers_of(state, subject) if one.name == layers[-1]]
    ties = state.current(TIES_OF, subject)
    for end, station_nm in ends.items():
        if any(low <= station_nm <= high for low, high in (one.stretch for one in covering)):
            leading = [entry for entry in ties if entry.body.tied == f"collector_{end}"]
            points = {entry.body.point_id for entry in leading}
            if len(points) < ENOUGH:
                rests_on = [*(one.entry for one in covering), *leading]
                yield make_finding(
                    CHECK.id, subject, rests_on, place=end, end=end, count=len(points)
                )


def _collector_tied(state: JobState, entry: AnyEntry) -> Iterable[str]:
    tie = entry.body
    return (tie.collector_id,) if isinstance(tie, Tie) and tie.collector_id else ()


CHECK = Check(
    id="end_not_tied",
    severity=Severity.NOTE,
    problem="An end of a covered collector is not tied to two permanent points.",
    why="Under sod nobody sees where a pipe ends; two taped distances find it again in ten years.",
    cure="Tape the level distance from two points that will stay, and write both down.",
    message="The {end} of the collector is covered, and ties lead to it "
    "from {count} of two points.",
    watches={
        **dict.fromkeys(("collector", "layer_check"), collector_of_entry),
        "tie": _collector_tied,
    },
    subjects=every_collector,
    examine=_examine,
)
