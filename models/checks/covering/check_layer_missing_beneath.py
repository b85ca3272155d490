"""layer_missing_beneath: a layer lies where nobody has checked the one under it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from models.checks.affected_together import every_collector
from models.checks.covering.layers import (
    LAYERS,
    is_above,
    layer_stretches,
    layer_text,
    layers_of,
    planned_layers,
    stretch_finding,
)
from models.checks.finding import Check, Finding, Severity
from models.checks.stretches import Stretch, StretchUnion, merge_with_items
from models.plan.collector import LAYER_ORDER, Layer
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    checked = layers_of(state, subject)
    lying = {layer: StretchUnion() for layer in LAYER_ORDER}
    for one in checked:
        lying[one.name].add(one.stretch)
    for beneath in planned_layers(state, subject):
        there = StretchUnion(layer_stretches(state, subject, beneath))
        if not any(there.missing_from(part) for part in _lying_over(lying, beneath)):
            continue
        bare = [
            (gap, upper)
            for upper in checked
            if is_above(upper.name, beneath)
            for gap in there.missing_from(upper.stretch)
        ]
        for stretch, uppers in merge_with_items(bare):
            yield stretch_finding(
                CHECK.id,
                subject,
                [upper.entry for upper in uppers],
                f"{beneath}/{stretch[0]}",
                stretch,
                layer=layer_text(uppers[0].name),
                beneath=layer_text(beneath),
            )


def _lying_over(lying: Mapping[Layer, StretchUnion], beneath: Layer) -> list[Stretch]:
    """Where layers over another lie: few parts, however often they were checked."""
    over = LAYER_ORDER[LAYER_ORDER.index(beneath) + 1 :]
    return [part for layer in over for part in lying[layer].parts()]


CHECK = Check(
    id="layer_missing_beneath",
    severity=Severity.STOP,
    problem="A layer was checked where nobody has checked a layer that belongs under it.",
    why="What is not written down was not seen, and under the next layer nobody sees it any more.",
    cure="If the layer is there, write down that it was checked; if not, open up and place it.",
    message="From {from_nm:station} to {to_nm:station} there is {layer}, and no {beneath} "
    "was checked beneath it.",
    watches=LAYERS,
    subjects=every_collector,
    examine=_examine,
)
