"""A31: something in the ground that lines are cut over, and that is not deep enough for it."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import USES, PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.plan.layout import PlannedKeepOut
from models.plan.line import LineUse
from models.units.filled_text import Fact


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        layout = view.layouts.get(surface.surface_id)
        for number, one in enumerate(layout.keep_outs if layout is not None else (), start=1):
            least_nm = pattern.depth_nm + one.clearance_nm
            if one.is_cut_over and (one.depth_nm is None or one.depth_nm <= least_nm):
                yield _fault(surface.surface_id, use, number, one, pattern.depth_nm)


def _fault(
    surface_id: str, use: LineUse, number: int, one: PlannedKeepOut, depth_nm: int
) -> PlanFault:
    facts: dict[str, Fact] = {
        "name": one.name or f"number {number}",
        "surface_id": surface_id,
        "lines": USES[use],
        "depth_nm": depth_nm,
    }
    if one.depth_nm is not None:
        facts |= {"top_nm": one.depth_nm, "clearance_nm": one.clearance_nm}
    return PlanFault(
        RULE.id,
        "no_depth" if one.depth_nm is None else "too_shallow",
        ("layout", surface_id),
        f"layout, keep_outs ({one.name or number})",
        f"{use}.{number}",
        facts,
        (("surface", surface_id),),
    )


RULE = Rule(
    id="A31",
    problem="A blade would come too near to something that lines are cut over.",
    why="What is only minded is cut over: a cable or a pipe within reach of the blade is cut.",
    cure="Give its depth as it was found, or keep lines out of its place.",
    sayings={
        "no_depth": FaultTemplate(
            Level.REFUSE,
            "Lines are cut over {name} on {surface_id}, and nothing says how deep it lies; the "
            "{lines} are {depth_nm:depth} deep.",
            "its depth below finished turf; or kind no_cut",
        ),
        "too_shallow": FaultTemplate(
            Level.REFUSE,
            "Lines are cut over {name} on {surface_id}: it lies {top_nm:depth} deep, and the "
            "{lines} with its clearance reach {depth_nm:depth} and {clearance_nm:depth} more.",
            "a depth greater than both together; or kind no_cut",
        ),
    },
    kinds=("surface", "layout"),
    examine=_examine,
)
