"""A02: a slit of no depth or width, one no machine cuts, one deeper or wider than is usual."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from models.audit.plan_view import USES, PlanView, first_lines
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.entries.bodies.surfaces import Surface
from models.plan.line import LineUse
from models.plan.pattern import SlitPattern
from models.units import NM_PER, LengthUnit

_IN = NM_PER[LengthUnit.IN]
SHALLOWEST_NM, DEEPEST_NM, WIDEST_NM = 2 * _IN, 24 * _IN, 6 * _IN
"""Beyond these a slit is asked about: common practice, no source."""


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        for saying, size, more in _faults(view, surface, use, pattern):
            yield PlanFault(
                RULE.id,
                saying,
                ("surface", surface.surface_id),
                f"{use}s, {size}",
                f"{use}.{size}",
                {
                    "lines": USES[use],
                    "surface_id": surface.surface_id,
                    f"{size}_nm": getattr(pattern, f"{size}_nm"),
                    **more,
                },
                tuple(("machine", one.machine_id) for one in view.cutters(surface.surface_id, use))
                + (("layout", surface.surface_id),),
            )


def _faults(
    view: PlanView, surface: Surface, use: LineUse, pattern: SlitPattern
) -> Iterator[tuple[str, str, dict[str, Any]]]:
    depth_nm, width_nm = pattern.depth_nm, pattern.width_nm
    cutters = view.cutters(surface.surface_id, use)
    deepest = [one.deepest_nm for one in cutters]
    if not depth_nm:
        yield "no_depth", "depth", {}
    elif deepest and all(nm is not None and nm < depth_nm for nm in deepest):
        names = first_lines(one.machine_id for one in cutters)
        most_nm = max(nm for nm in deepest if nm is not None)
        yield "beyond_machine", "depth", {"machine_id": names, "most_nm": most_nm}
    elif not SHALLOWEST_NM <= depth_nm <= DEEPEST_NM:
        yield "odd_depth", "depth", {"least_nm": SHALLOWEST_NM, "most_nm": DEEPEST_NM}
    if not width_nm:
        yield "no_width", "width", {}
    elif width_nm > WIDEST_NM:
        yield "odd_width", "width", {"most_nm": WIDEST_NM}


RULE = Rule(
    id="A02",
    problem="A slit is planned in a size that can't be cut, or is not usual.",
    why="Sand, pipe and every reading are judged by it: a figure in the wrong unit makes all of "
    "them wrong, and one that the machine can't reach is found out on the turf.",
    cure="Plan the size that is meant, with its unit; or say why it is meant so.",
    sayings={
        "no_depth": FaultTemplate(
            Level.REFUSE,
            "The {lines} of {surface_id} have a depth of nothing.",
            "a depth with its unit, such as 9 in or 230 mm",
        ),
        "no_width": FaultTemplate(
            Level.REFUSE,
            "The {lines} of {surface_id} have a width of nothing.",
            "a width with its unit, such as 1 in or 25 mm",
        ),
        "beyond_machine": FaultTemplate(
            Level.REFUSE,
            "The {lines} of {surface_id} are planned {depth_nm:depth} deep, and {machine_id} cuts "
            "{most_nm:depth} at most.",
            "a depth of at most {most_nm:depth}, or a machine that cuts deeper",
        ),
        "odd_depth": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} are planned {depth_nm:depth} deep; {least_nm:depth} to "
            "{most_nm:depth} is usual.",
            "such a depth, or a reason",
        ),
        "odd_width": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} are planned {width_nm:depth} wide; at most "
            "{most_nm:depth} is usual for a slit.",
            "such a width, or a reason",
        ),
    },
    kinds=("surface", "layout", "machine"),
    examine=_examine,
)
