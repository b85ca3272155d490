"""A01: a slit as wide as the spacing, or ribs of turf narrower than the slit."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import USES, PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        rib_nm = pattern.spacing_nm - pattern.width_nm
        if rib_nm >= pattern.width_nm and rib_nm > 0:
            continue
        yield PlanFault(
            RULE.id,
            "no_rib" if rib_nm <= 0 else "thin_rib",
            ("surface", surface.surface_id),
            f"{use}s",
            use,
            {
                "lines": USES[use],
                "surface_id": surface.surface_id,
                "width_nm": pattern.width_nm,
                "spacing_nm": pattern.spacing_nm,
                "rib_nm": rib_nm,
            },
        )


RULE = Rule(
    id="A01",
    problem="Slits leave too little turf between them.",
    why="The rib between two slits bears the turf and the wheels; where it is narrower than the "
    "slit it breaks out, and where there is none the whole surface is dug up.",
    cure="Plan the lines farther apart or the slits narrower; or say why it is meant so.",
    sayings={
        "no_rib": FaultTemplate(
            Level.REFUSE,
            "The {lines} of {surface_id} are {width_nm:depth} wide and {spacing_nm:depth} apart, "
            "so no turf would be left between them.",
            "a spacing of more than {width_nm:depth}, or a narrower slit",
        ),
        # A rib at least as wide as the slit: common practice, no source.
        "thin_rib": FaultTemplate(
            Level.ASK,
            "The {lines} of {surface_id} are {width_nm:depth} wide and {spacing_nm:depth} apart: "
            "the turf between them is {rib_nm:depth}, narrower than the slit.",
            "a spacing of twice the width or more, or a reason",
        ),
    },
    kinds=("surface",),
    examine=_examine,
)
