"""A20: a collector that arrives off what it joins, under its water, or where no level is known."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.entries.bodies.outlets import Outlet
from models.entries.bodies.surfaces import Collector
from models.science.water.network import Match, arriving_invert_nm
from models.units import round_half_even
from models.units.filled_text import Fact


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, run in view.collectors.items():
        joins = run.joins
        if joins is None:
            continue
        joined = joins.outlet_id or joins.collector_id
        kind = "outlet" if joins.outlet_id else "collector"
        for saying, facts in _faults(view, run):
            yield PlanFault(
                RULE.id,
                saying,
                ("collector", name),
                "joins",
                facts={"collector_id": name, "joined": joined, **facts},
                others=((kind, joined),),
            )


def _faults(view: PlanView, run: Collector) -> Iterator[tuple[str, dict[str, Fact]]]:
    joins, design = run.joins, run.design
    if joins is None:
        return
    own = design.invert_nm(design.outlet_station_nm)
    outlet = view.outlets.get(joins.outlet_id)
    other = view.collectors.get(joins.collector_id)
    if outlet is not None:
        yield from _at_outlet(outlet, own, design.low_nm)
    elif other is not None and joins.station_nm is not None:
        want = arriving_invert_nm(
            other.design.invert_nm(joins.station_nm),
            other.design.bore_nm,
            design.bore_nm,
            Match(joins.match),
            joins.drop_nm,
        )
        off = own - want
        facts: dict[str, Fact] = {
            "off_nm": _whole(abs(off)),
            "invert_nm": _whole(want),
        }
        if off > design.high_nm:
            yield "high", facts
        elif -off > design.low_nm:
            yield "low", facts


def _at_outlet(outlet: Outlet, own: Fraction, low_nm: int) -> Iterator[tuple[str, dict[str, Fact]]]:
    if outlet.invert_nm is None and outlet.tailwater_nm is None:
        yield "no_level", {}
    under_nm = outlet.invert_nm - own if outlet.invert_nm is not None else Fraction(0)
    drowned_nm = outlet.tailwater_nm - own if outlet.tailwater_nm is not None else Fraction(0)
    # One fault a collector: what clears the higher of the two clears the other.
    if outlet.invert_nm is not None and under_nm > low_nm and under_nm >= drowned_nm:
        facts: dict[str, Fact] = {"off_nm": _whole(under_nm), "invert_nm": outlet.invert_nm}
        yield "below_outlet", facts
    elif drowned_nm > 0:
        yield "below_water", {"off_nm": _whole(drowned_nm)}


def _whole(nm: Fraction) -> int:
    return round_half_even(nm.numerator, nm.denominator)


RULE = Rule(
    id="A20",
    problem="A collector does not arrive at the level of what it joins.",
    why="A pipe that arrives low stands full of what comes back; one that arrives high falls "
    "into the other and wears it, or was measured from another datum.",
    cure="Match the level at the joint, give the drop that is meant, or find the level there.",
    sayings={
        "high": FaultTemplate(
            Level.ASK,
            "{collector_id} arrives at {joined} {off_nm:depth} higher than it is meant to.",
            "an invert of {invert_nm:level} at its end, or another match of the two",
        ),
        "low": FaultTemplate(
            Level.ASK,
            "{collector_id} arrives at {joined} {off_nm:depth} lower than it is meant to.",
            "an invert of {invert_nm:level} at its end, or another match of the two",
        ),
        "below_outlet": FaultTemplate(
            Level.ASK,
            "{collector_id} arrives {off_nm:depth} below the invert of {joined}.",
            "an invert of {invert_nm:level} or more at its end",
        ),
        "below_water": FaultTemplate(
            Level.ASK,
            "The water at {joined} stands {off_nm:depth} over the end of {collector_id}.",
            "an end above the water, or a reason why the pipe may stand full",
        ),
        "no_level": FaultTemplate(
            Level.ASK,
            "{collector_id} runs to {joined}, of which no level is known.",
            "the invert or the water level of {joined}",
        ),
    },
    kinds=("collector", "outlet"),
    examine=_examine,
)
