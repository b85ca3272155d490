"""A22: a collector that ends nowhere, in two places, in a circle, or off what it joins."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, Part, PlanFault, Rule
from models.entries.bodies.surfaces import Collector
from models.plan.collector import CollectorDesign, PlanPoint
from models.science.shapes.rings import PointNm, distance_nm
from models.science.water.network import circle_in
from models.units import NM_PER, LengthUnit
from models.units.filled_text import Fact

APART_NM = NM_PER[LengthUnit.FT]
"""Two drawn places nearer than this are one: what a tape over turf is good to, no source."""


def _examine(view: PlanView) -> Iterator[PlanFault]:
    ends = {name: run.joins.collector_id for name, run in view.collectors.items() if run.joins}
    circle = circle_in({name: end for name, end in ends.items() if end})
    if circle:
        yield PlanFault(
            RULE.id,
            "circle",
            ("collector", circle[0]),
            "joins",
            facts={"lines": ", ".join(circle)},
            others=tuple(("collector", name) for name in circle[1:]),
        )
    for name, run in view.collectors.items():
        yield from _faults(view, name, run)


def _faults(view: PlanView, name: str, run: Collector) -> Iterator[PlanFault]:
    joins = run.joins
    if joins is None:
        return
    facts: dict[str, Fact] = {"collector_id": name}
    part = ("collector", name)
    joined = joins.outlet_id or joins.collector_id
    outlet = view.outlets.get(joins.outlet_id)
    other = view.collectors.get(joins.collector_id)
    if bool(joins.outlet_id) == bool(joins.collector_id):
        yield PlanFault(RULE.id, "one_end", part, "joins", "", facts)
        return
    facts["joined"] = joined
    if other is not None:
        yield from _at_station(part, facts, other.design, joins.station_nm)
    elif outlet is None:
        yield PlanFault(RULE.id, "unknown", part, "joins", "", facts)
    elif outlet.at is not None and run.design.path:
        off_nm = _apart_nm(_end_of(run.design), outlet.at)
        if off_nm > APART_NM:
            far = {**facts, "off_nm": off_nm, "limit_nm": APART_NM}
            yield PlanFault(RULE.id, "far", part, "design, path", "", far, (("outlet", joined),))


def _at_station(
    part: Part, facts: dict[str, Fact], design: CollectorDesign, station_nm: int | None
) -> Iterator[PlanFault]:
    """A joint at no station, or at one that the collector joined does not have."""
    where = "joins, station"
    if station_nm is None:
        yield PlanFault(RULE.id, "no_station", part, where, "", facts)
    elif not design.start_nm <= station_nm <= design.end_nm:
        first, last = design.start_nm, design.end_nm
        off = {**facts, "station_nm": station_nm, "first_nm": first, "last_nm": last}
        others = (("collector", str(facts["joined"])),)
        yield PlanFault(RULE.id, "off_run", part, where, "", off, others)


def _end_of(design: CollectorDesign) -> PlanPoint:
    """Drawn place of the end that water leaves by."""
    return design.path[0 if design.stationed_from == "outlet" else -1]


def _apart_nm(one: PlanPoint, other: PlanPoint) -> int:
    return distance_nm(PointNm(one.x_nm, one.y_nm), PointNm(other.x_nm, other.y_nm))


RULE = Rule(
    id="A22",
    problem="A collector does not end at one place that the plan knows.",
    why="Water takes one way: a run into itself, or to what is not there, leads it nowhere, and "
    "no gate can be worked out.",
    cure="Let each collector join one outlet, or one other collector at a station of it.",
    sayings={
        "circle": FaultTemplate(
            Level.REFUSE,
            "Water would go in a circle through {lines}.",
            "collectors that lead to an outlet in the end",
        ),
        "one_end": FaultTemplate(
            Level.REFUSE,
            "{collector_id} joins an outlet and a collector, or neither.",
            "one of the two",
        ),
        "unknown": FaultTemplate(
            Level.REFUSE,
            "{collector_id} joins {joined}, which the plan does not have.",
            "the name of an outlet or a collector of the plan",
        ),
        "no_station": FaultTemplate(
            Level.REFUSE,
            "{collector_id} joins {joined} at no station.",
            "a station of {joined}",
        ),
        "off_run": FaultTemplate(
            Level.REFUSE,
            "{collector_id} joins {joined} at {station_nm:station}, and that runs from "
            "{first_nm:station} to {last_nm:station}.",
            "a station from {first_nm:station} to {last_nm:station}",
        ),
        "far": FaultTemplate(
            Level.REFUSE,
            "The course of {collector_id} ends {off_nm:length} from {joined}.",
            "a course that ends within {limit_nm:length} of it",
        ),
    },
    kinds=("collector", "outlet"),
    examine=_examine,
)
