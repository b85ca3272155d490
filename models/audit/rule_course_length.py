"""A17: a collector whose length is not that of its course."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView, ring_of
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.science.shapes.rings import path_length_nm
from models.units import NM_PER, LengthUnit

ALLOWED_NM = NM_PER[LengthUnit.FT]
ALLOWED_PERMILLE = 5
"""1 ft, or half a percent where that is more: common practice, no source."""


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, collector in view.collectors.items():
        design = collector.design
        if len(design.path) < 2:
            continue
        drawn_nm = path_length_nm(ring_of(design.path))
        allowed_nm = max(ALLOWED_NM, design.length_nm * ALLOWED_PERMILLE // 1000)
        if abs(drawn_nm - design.length_nm) > allowed_nm:
            yield PlanFault(
                RULE.id,
                "off_course",
                ("collector", name),
                "design, length",
                facts={
                    "collector_id": name,
                    "length_nm": design.length_nm,
                    "drawn_nm": drawn_nm,
                    "allowed_nm": allowed_nm,
                },
            )


RULE = Rule(
    id="A17",
    problem="The length of a collector is not that of its course.",
    why="Stations count along it: joints, shots and the as-built would lie where no pipe is.",
    cure="Draw the course anew, or plan the length that it has.",
    sayings={
        "off_course": FaultTemplate(
            Level.REFUSE,
            "{collector_id} is {length_nm:length} long by its design and {drawn_nm:length} along "
            "its course.",
            "the two within {allowed_nm:length} of each other: a length of {drawn_nm:length}, or "
            "a course of {length_nm:length}",
        )
    },
    kinds=("collector",),
    examine=_examine,
)
