"""A05: a pipe that does not go into its slit."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for surface, use, pattern in view.patterns():
        for size, size_nm in (("width", pattern.width_nm), ("depth", pattern.depth_nm)):
            # a slit of no size is told by A02
            if pattern.pipe_outside_nm > size_nm > 0:
                yield PlanFault(
                    RULE.id,
                    f"beyond_{size}",
                    ("surface", surface.surface_id),
                    f"{use}s, pipe_outside",
                    f"{use}.{size}",
                    {
                        "surface_id": surface.surface_id,
                        "outside_nm": pattern.pipe_outside_nm,
                        f"{size}_nm": size_nm,
                    },
                )


RULE = Rule(
    id="A05",
    problem="A pipe is thicker than the slit it goes into.",
    why="It can't be laid; one of the two figures is wrong, and sand and gravel are reckoned "
    "from both.",
    cure="Plan the outside of the pipe and the slit that it goes into, each with its unit.",
    sayings={
        "beyond_width": FaultTemplate(
            Level.REFUSE,
            "The pipe in the slits of {surface_id} is {outside_nm:depth} thick and the slit "
            "{width_nm:depth} wide.",
            "a pipe of at most {width_nm:depth} outside, or a wider slit",
        ),
        "beyond_depth": FaultTemplate(
            Level.REFUSE,
            "The pipe in the slits of {surface_id} is {outside_nm:depth} thick and the slit "
            "{depth_nm:depth} deep.",
            "a pipe of less than {depth_nm:depth} outside, or a deeper slit",
        ),
    },
    kinds=("surface",),
    examine=_examine,
)
