"""A08: pieces so short that a round blade reaches full depth nowhere in them."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import USES, PlanView, first_lines
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.science.slits.ramps import Ramp


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        cutters = view.cutters(surface.surface_id, use)
        ramps = [Ramp(one.round_blade_nm, pattern.depth_nm) for one in cutters]
        least_nm = min((ramp.shortest_nm for ramp in ramps), default=0)
        short = [one for one in surface.lines if one.use == use and one.length_nm < least_nm]
        if short and pattern.ends == "ramps_inside":
            yield PlanFault(
                RULE.id,
                "no_full_depth",
                ("surface", surface.surface_id),
                "lines",
                use,
                {
                    "surface_id": surface.surface_id,
                    "lines": first_lines(one.line_id for one in short),
                    "length_nm": min(one.length_nm for one in short),
                    "least_nm": least_nm,
                    "what": USES[use],
                    "depth_nm": pattern.depth_nm,
                    "machine_id": first_lines(one.machine_id for one in cutters),
                },
                (
                    ("layout", surface.surface_id),
                    *(("machine", one.machine_id) for one in cutters),
                ),
            )


RULE = Rule(
    id="A08",
    problem="Lines are too short for their blade to reach full depth.",
    why="A round blade goes in and comes out over a ramp at each end; where the ramps meet, the "
    "slit is shallower than planned all along.",
    cure="Drop pieces that are shorter than both ramps, plan a smaller blade, or let full depth "
    "reach the ends of the lines.",
    sayings={
        "no_full_depth": FaultTemplate(
            Level.ASK,
            "{lines} of the {what} of {surface_id} would nowhere be {depth_nm:depth} "
            "deep: the shortest is {length_nm:length}, and the blade of {machine_id} needs "
            "{least_nm:length} for its two ramps.",
            "no piece shorter than {least_nm:length} (least), ends of full depth, or a reason",
        ),
    },
    kinds=("surface", "layout", "machine"),
    examine=_examine,
)
