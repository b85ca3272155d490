"""layer_out_of_order: a layer was placed where the one over it lay already."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.found import found
from models.checks.layers import LAYERS, CheckedLayer, is_above, layers_of, placed, planned_layers
from models.checks.stretches import joined, shared, without
from models.checks.watching import every_collector
from models.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    planned = planned_layers(state, subject)
    earlier: list[CheckedLayer] = []
    for late in layers_of(state, subject):
        over = next((one for one in earlier if _lies_over(state, subject, one, late)), None)
        if over is not None and late.name in planned:
            low, high = _where(state, subject, over, late)
            yield found(
                CHECK.id,
                subject,
                [over.entry, late.entry],
                place=late.entry.id,
                layer=over.name.replace("_", " "),
                beneath=late.name.replace("_", " "),
                from_nm=low,
                to_nm=high,
            )
        earlier.append(late)


def _lies_over(state: JobState, subject: str, over: CheckedLayer, late: CheckedLayer) -> bool:
    return is_above(over.name, late.name) and bool(_bare(state, subject, over, late))


def _bare(
    state: JobState, subject: str, over: CheckedLayer, late: CheckedLayer
) -> list[tuple[int, int]]:
    """Where the upper layer was checked with the lower one not there yet."""
    common = shared(over.stretch, late.stretch)
    if common is None:
        return []
    before = placed(state, subject, late.name, before=state.place_of(over.entry))
    return without(common, before)


def _where(
    state: JobState, subject: str, over: CheckedLayer, late: CheckedLayer
) -> tuple[int, int]:
    bare = joined(_bare(state, subject, over, late))
    return bare[0][0], bare[-1][1]


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
