"""A03: lines closer together or farther apart than is usual."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import USES, PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.plan.line import LineUse
from models.units import NM_PER, LengthUnit

_IN, _FT = NM_PER[LengthUnit.IN], NM_PER[LengthUnit.FT]
USUAL_NM: dict[LineUse, tuple[int, int]] = {
    "sand_slit": (4 * _IN, 10 * _FT),
    "piped_slit": (_FT, 60 * _FT),
}
"""Spacings that nobody is asked about: common practice, no source."""


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        least_nm, most_nm = USUAL_NM[use]
        if not least_nm <= pattern.spacing_nm <= most_nm:
            yield PlanFault(
                RULE.id,
                "odd_spacing",
                ("surface", surface.surface_id),
                f"{use}s, spacing",
                use,
                {
                    "lines": USES[use],
                    "surface_id": surface.surface_id,
                    "spacing_nm": pattern.spacing_nm,
                    "least_nm": least_nm,
                    "most_nm": most_nm,
                },
            )


RULE = Rule(
    id="A03",
    problem="Lines are planned closer together or farther apart than is usual.",
    why="A spacing in the wrong unit, feet for inches, makes a plan that can be laid and drains "
    "nothing, or tears the turf up.",
    cure="Plan the spacing that is meant, with its unit; or say why it is meant so.",
    sayings={
        "odd_spacing": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} are planned {spacing_nm:depth} "
            "({spacing_nm:length}) apart; {least_nm:depth} to {most_nm:depth} is usual.",
            "such a spacing, or a reason",
        )
    },
    kinds=("surface",),
    examine=_examine,
)
