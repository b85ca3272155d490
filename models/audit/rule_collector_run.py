"""A18: a collector without length, flatter than its least, or with its ground out of order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.plan.collector import CollectorDesign
from models.units import round_half_even


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, collector in view.collectors.items():
        for saying, field, facts in _faults(collector.design):
            yield PlanFault(
                RULE.id,
                saying,
                ("collector", name),
                f"design, {field}",
                field,
                {"collector_id": name, **facts},
            )


def _faults(design: CollectorDesign) -> Iterator[tuple[str, str, dict[str, Any]]]:
    if not design.length_nm:
        yield "no_length", "length", {}
    if design.fall_nm < design.least_grade_fall_nm:
        grade, least = (
            round_half_even(fall_nm * 1_000_000, design.run_nm)
            for fall_nm in (design.fall_nm, design.least_grade_fall_nm)
        )
        yield "flat", "grade", {"grade_ppm": grade, "least_ppm": least}
    for number, (one, other) in enumerate(pairwise(design.ground), start=2):
        if other.station_nm <= one.station_nm:
            facts = {"from_nm": one.station_nm, "to_nm": other.station_nm}
            yield "out_of_order", f"ground, {number}", facts


RULE = Rule(
    id="A18",
    problem="A collector is planned with figures that contradict one another.",
    why="Every shot is judged by its design: a grade below the least allowed is flagged however "
    "well the pipe is laid, and ground out of order gives wrong depths.",
    cure="Plan its length, a grade that is allowed, and its ground station by station.",
    sayings={
        "no_length": FaultTemplate(
            Level.REFUSE,
            "{collector_id} has a length of nothing.",
            "a length with its unit, such as 120 ft or 36 m",
        ),
        "flat": FaultTemplate(
            Level.REFUSE,
            "{collector_id} falls {grade_ppm:grade} by its design, and the least allowed is "
            "{least_ppm:grade}.",
            "a grade of {least_ppm:grade} or more, or a smaller least",
        ),
        "out_of_order": FaultTemplate(
            Level.REFUSE,
            "The ground over {collector_id} goes back from {from_nm:station} to {to_nm:station}.",
            "levels in the order of their stations, each station once",
        ),
    },
    kinds=("collector",),
    examine=_examine,
)
