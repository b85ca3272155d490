"""covered_before_release: the pipe was covered before its hold point was released."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import collector_of_entry
from models.checks.covering.layers import (
    CheckedLayer,
    is_above,
    layer_text,
    layers_of,
    stretch_finding,
)
from models.checks.finding import Check, Finding, Severity
from models.checks.stretches import Stretch, StretchUnion, merge_with_items
from models.entries.kind_names import HOLD_POINT, LAYER_CHECK
from models.state.job_state import JobState
from models.units.station import StationRange


def _subjects(state: JobState) -> list[str]:
    return state.every_name(LAYER_CHECK)


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    covers = [one for one in layers_of(state, subject) if is_above(one.name, "tracer_wire")]
    holds = iter(state.current(HOLD_POINT, subject))
    hold = next(holds, None)
    released = StretchUnion()
    hidden: list[tuple[Stretch, CheckedLayer]] = []
    for cover in covers:
        while hold is not None and state.place_of(hold) < state.place_of(cover.entry):
            released.add(StationRange.between(hold.body.from_nm, hold.body.to_nm))
            hold = next(holds, None)
        hidden += [(bare, cover) for bare in released.missing_from(cover.stretch)]
    for stretch, over in merge_with_items(hidden):
        yield stretch_finding(
            CHECK.id,
            subject,
            [cover.entry for cover in over],
            str(stretch[0]),
            stretch,
            layer=layer_text(over[0].name),
        )


CHECK = Check(
    id="covered_before_release",
    severity=Severity.STOP,
    problem="The pipe was covered before its hold point was released.",
    why="Somebody had to see grade, joints and wire while they lay open; now nobody can.",
    cure="Stop covering. Open up what has to be seen, or have whoever releases it accept "
    "the shots and photos instead.",
    message="From {from_nm:station} to {to_nm:station} the {layer} went in before the hold "
    "point was released.",
    watches=dict.fromkeys(("layer_check", "hold_point"), collector_of_entry),
    subjects=_subjects,
    examine=_examine,
)
