"""layer_out_of_order: a layer was placed where the one over it lay already."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import every_collector
from models.checks.covering.layers import (
    LAYERS,
    CheckedLayer,
    is_above,
    layer_stretches,
    layer_text,
    layers_of,
    planned_layers,
    stretch_finding,
)
from models.checks.finding import Check, Finding, Severity
from models.checks.stretches import StretchUnion, intersection, subtract_stretches
from models.plan.collector import LAYER_ORDER
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    planned = planned_layers(state, subject)
    lying = {layer: StretchUnion() for layer in LAYER_ORDER}
    earlier: list[CheckedLayer] = []
    for late in layers_of(state, subject):
        over = LAYER_ORDER[LAYER_ORDER.index(late.name) + 1 :]
        if late.name in planned and any(lying[layer].overlaps(late.stretch) for layer in over):
            yield from _told(state, subject, late, earlier)
        earlier.append(late)
        lying[late.name].add(late.stretch)


def _told(
    state: JobState, subject: str, late: CheckedLayer, earlier: list[CheckedLayer]
) -> Iterator[Finding]:
    for upper in earlier:
        bare = _bare(state, subject, upper, late) if is_above(upper.name, late.name) else []
        if bare:
            yield stretch_finding(
                CHECK.id,
                subject,
                [upper.entry, late.entry],
                late.entry.id,
                (bare[0][0], bare[-1][1]),
                layer=layer_text(upper.name),
                beneath=layer_text(late.name),
            )
            return


def _bare(
    state: JobState, subject: str, over: CheckedLayer, late: CheckedLayer
) -> list[tuple[int, int]]:
    """Where the upper layer was checked with the lower one not there yet."""
    common = intersection(over.stretch, late.stretch)
    if common is None:
        return []
    before = layer_stretches(state, subject, late.name, before=state.place_of(over.entry))
    return subtract_stretches(common, before)


CHECK = Check(
    id="layer_out_of_order",
    severity=Severity.STOP,
    problem="A layer was placed after the layer that belongs over it.",
    why="Layers work only in their order: fabric under the gravel keeps no sand out of it.",
    cure="Take the upper layer off, place them in their order, and check them again; if only "
    "the writing was out of order, strike the upper check and write it again.",
    message="From {from_nm:station} to {to_nm:station} the {layer} was checked before the "
    "{beneath} beneath it.",
    watches=LAYERS,
    subjects=every_collector,
    examine=_examine,
)
