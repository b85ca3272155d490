"""A06: limits of a slit that let everything pass, or nothing."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import USES, PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        longest_nm = max((one.length_nm for one in surface.lines if one.use == use), default=0)
        told = []
        for name, limit_nm in (("under", pattern.under_nm), ("over", pattern.over_nm)):
            if pattern.depth_nm and 2 * limit_nm >= pattern.depth_nm:
                told.append((f"wide_{name}", name, {"limit_nm": limit_nm}))
            elif not limit_nm:
                told.append((f"no_{name}", name, {}))
        if longest_nm and pattern.probe_every_nm > longest_nm:
            probes = {"apart_nm": pattern.probe_every_nm, "length_nm": longest_nm}
            told.append(("rare_probes", "probe_every", probes))
        for saying, name, facts in told:
            yield PlanFault(
                RULE.id,
                saying,
                ("surface", surface.surface_id),
                f"{use}s, {name}",
                f"{use}.{name}",
                {
                    "lines": USES[use],
                    "surface_id": surface.surface_id,
                    "depth_nm": pattern.depth_nm,
                    **facts,
                },
            )


_WIDE = "less than half the depth, such as 1/2 in or 13 mm; or a reason"
_NONE = "what the crew can hold, such as 1/2 in or 13 mm"

RULE = Rule(
    id="A06",
    problem="The limits of a slit let nearly everything pass, or nothing.",
    why="Every probe is judged by them: half the depth is no limit, and one of nothing flags "
    "every reading.",
    cure="Plan the limits that were agreed; or say why they are meant so.",
    sayings={
        "wide_under": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} may be {limit_nm:depth} shallower than their "
            "{depth_nm:depth}.",
            _WIDE,
        ),
        "wide_over": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} may be {limit_nm:depth} deeper than their "
            "{depth_nm:depth}.",
            _WIDE,
        ),
        "no_under": FaultTemplate(
            Level.NOTE, "Nothing is allowed below the depth of the {lines} of {surface_id}.", _NONE
        ),
        "no_over": FaultTemplate(
            Level.NOTE, "Nothing is allowed beyond the depth of the {lines} of {surface_id}.", _NONE
        ),
        "rare_probes": FaultTemplate(
            Level.NOTE,
            "Probes on the {lines} of {surface_id} may be {apart_nm:length} apart, and the longest "
            "of them is {length_nm:length}.",
            "a gap of at most {length_nm:length}",
        ),
    },
    kinds=("surface",),
    examine=_examine,
)
