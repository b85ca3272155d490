"""A14: piped slits that join nothing, too far off, or lead to no outlet."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView, first_lines
from models.audit.rule import FaultTemplate, Level, Part, PlanFault, Rule
from models.entries.bodies.surfaces import Surface
from models.units.filled_text import Fact


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, surface in view.surfaces.items():
        piped = [line.line_id for line in surface.lines if line.use == "piped_slit"]
        if not piped:
            continue
        yield from _joints(view, name, surface)
        if surface.outlet_id in view.outlets or view.outlet_of(surface.collector_id):
            continue
        facts = {"surface_id": name, "collector_id": surface.collector_id}
        saying = "no_outlet" if surface.collector_id else "nowhere"
        kind, other = "collector", surface.collector_id
        known = ((kind, other),) if other in view.collectors else ()
        yield PlanFault(RULE.id, saying, ("surface", name), "lines", "", facts, known)


def _joints(view: PlanView, name: str, surface: Surface) -> Iterator[PlanFault]:
    layout = view.layouts.get(name)
    if layout is None or not surface.collector_id:
        return
    others: tuple[Part, ...] = (("layout", name),)
    facts: dict[str, Fact] = {"surface_id": name, "collector_id": surface.collector_id}
    if layout.unjoined:
        lost = {**facts, "lines": first_lines(layout.unjoined)}
        yield PlanFault(RULE.id, "unjoined", ("surface", name), "lines", "unjoined", lost, others)
    for end in layout.ends:
        if layout.reach_nm is not None and end.gap_nm > layout.reach_nm:
            line_id, reach_nm = end.line_id, layout.reach_nm
            far = {**facts, "line_id": line_id, "gap_nm": end.gap_nm, "reach_nm": reach_nm}
            yield PlanFault(RULE.id, "far", ("surface", name), "lines", line_id, far, others)


RULE = Rule(
    id="A14",
    problem="Piped slits are planned that lead to no outlet.",
    why="Water runs to the end of the pipe and stands there: the slits dry nothing.",
    cure="Join them to a collector that leads to an outlet, or name the outlet they run to.",
    sayings={
        "unjoined": FaultTemplate(
            Level.ASK,
            "On {surface_id} these piped slits join nothing of {collector_id}: {lines}.",
            "a joint for each, or a reason why it has none",
        ),
        "far": FaultTemplate(
            Level.ASK,
            "{line_id} of {surface_id} ends {gap_nm:length} from {collector_id}.",
            "an end within {reach_nm:length} of it",
        ),
        "no_outlet": FaultTemplate(
            Level.ASK,
            "The piped slits of {surface_id} run to {collector_id}, which leads to no outlet.",
            "an outlet at the end of {collector_id}",
        ),
        "nowhere": FaultTemplate(
            Level.ASK,
            "The piped slits of {surface_id} run to no collector and to no outlet.",
            "a collector or an outlet that they run to",
        ),
    },
    kinds=("surface", "layout", "collector", "outlet"),
    examine=_examine,
)
