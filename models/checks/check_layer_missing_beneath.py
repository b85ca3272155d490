"""layer_missing_beneath: a layer lies where nobody has checked the one under it."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.finding import Check, Finding, Severity
from models.checks.found import found
from models.checks.layers import LAYERS, is_above, layers_of, placed, planned_layers
from models.checks.stretches import joined, shared, without
from models.checks.watching import every_collector
from models.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    checked = layers_of(state, subject)
    for beneath in planned_layers(state, subject):
        over = [one for one in checked if is_above(one.name, beneath)]
        there = placed(state, subject, beneath)
        for stretch in joined(one.stretch for one in over):
            for gap in without(stretch, there):
                above = [one for one in over if shared(one.stretch, gap)]
                yield found(
                    CHECK.id,
                    subject,
                    [one.entry for one in above],
                    place=f"{beneath}/{gap[0]}",
                    layer=above[0].name.replace("_", " "),
                    beneath=beneath.replace("_", " "),
                    from_nm=gap[0],
                    to_nm=gap[1],
                )


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
