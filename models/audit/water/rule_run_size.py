"""A21: a pipe that leads into a smaller one, or whose obvert lies under that of the next."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.units import round_half_even
from models.units.filled_text import Fact


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, run in view.collectors.items():
        joins, design = run.joins, run.design
        other = view.collectors.get(joins.collector_id) if joins else None
        if joins is None or other is None or joins.station_nm is None or other is run:
            continue
        others = (("collector", joins.collector_id),)
        facts: dict[str, Fact] = {"collector_id": name, "joined": joins.collector_id}
        if design.bore_nm > other.design.bore_nm > 0:
            sizes = {"bore_nm": design.bore_nm, "next_nm": other.design.bore_nm}
            yield PlanFault(
                RULE.id, "smaller", ("collector", name), "joins", "", {**facts, **sizes}, others
            )
            continue
        own = design.invert_nm(design.outlet_station_nm) + design.bore_nm
        under = other.design.invert_nm(joins.station_nm) + other.design.bore_nm - own
        if joins.match != "obvert" and under > design.low_nm:
            low = {"off_nm": _whole(under)}
            yield PlanFault(
                RULE.id, "obvert", ("collector", name), "joins, match", "", {**facts, **low}, others
            )


def _whole(nm: Fraction) -> int:
    return round_half_even(nm.numerator, nm.denominator)


RULE = Rule(
    id="A21",
    problem="A pipe leads into one that takes less, or is drowned by it.",
    why="What the larger pipe brings stands up at the joint; where obverts are not level, the "
    "smaller pipe stands full whenever the larger one does.",
    cure="Make the lower pipe as large as the upper one, and let their obverts be level.",
    sayings={
        "smaller": FaultTemplate(
            Level.ASK,
            "{collector_id}, {bore_nm:depth} inside, runs into {joined}, {next_nm:depth} inside.",
            "{bore_nm:depth} or more below the joint",
        ),
        "obvert": FaultTemplate(
            Level.ASK,
            "The obvert of {collector_id} meets {joined} {off_nm:depth} under the obvert of that.",
            "obverts that are level, or a drop that makes them so",
        ),
    },
    kinds=("collector",),
    examine=_examine,
)
