"""wire_not_continuous: a tracer wire that lets no signal through."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import collector_of_entry
from models.checks.covering.layers import layers_of, stretch_finding
from models.checks.finding import Check, Finding, Severity
from models.checks.stretches import is_within
from models.entries.kind_names import LAYER_CHECK
from models.state.job_state import JobState


def _subjects(state: JobState) -> list[str]:
    return state.every_name(LAYER_CHECK)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    wires = [layer for layer in layers_of(state, subject) if layer.name == "tracer_wire"]
    for number, wire in enumerate(wires):
        traced = [other.stretch for other in wires[number + 1 :] if other.continuous]
        if wire.continuous is False and not is_within(wire.stretch, traced):
            yield stretch_finding(CHECK.id, subject, [wire.entry], wire.entry.id, wire.stretch)


CHECK = Check(
    id="wire_not_continuous",
    severity=Severity.STOP,
    problem="The tracer wire does not carry a signal from end to end.",
    why="A plastic pipe can be found again only by its wire; a break under sod means digging "
    "blind one day.",
    cure="Find the break, join it with a connector made for burial, and trace it again before "
    "it is covered.",
    message="No signal came through the tracer wire from {from_nm:station} to {to_nm:station}.",
    watches={"layer_check": collector_of_entry},
    subjects=_subjects,
    examine=_examine,
)
