"""A10: a keep-out that does not touch its surface, takes all of it, or has no size."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView, ring_of
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.plan.layout import PlannedKeepOut
from models.science.shapes.ring_places import gap_nm, place_in_ring
from models.science.shapes.rings import Ring, show_place


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, layout in view.layouts.items():
        surface = view.surfaces.get(name)
        ring = ring_of(surface.outline) if surface is not None else ()
        for number, keep_out in enumerate(layout.keep_outs, start=1):
            if len(ring) >= 3:
                yield from _misplaced(name, number, keep_out, ring)
    for source in view.sources:
        for point, at in source.points if source.radius_nm is None else ():
            if point not in source.left_out:
                yield PlanFault(
                    RULE.id,
                    "no_radius",
                    ("layout", source.surface_id),
                    "keep_outs",
                    point,
                    {"name": point, "where": show_place(at), "what": source.file},
                )


def _misplaced(
    surface_id: str, number: int, keep_out: PlannedKeepOut, ring: Ring
) -> Iterator[PlanFault]:
    own = ring_of(keep_out.edge)
    off_nm = gap_nm(own, ring)
    is_round = not keep_out.islands and all(place_in_ring(point, own) >= 0 for point in ring)
    if off_nm > keep_out.clearance_nm or is_round:
        yield PlanFault(
            RULE.id,
            "takes_all" if is_round else "off_surface",
            ("layout", surface_id),
            f"layout, keep_outs ({keep_out.name or number})",
            str(number),
            {
                "name": keep_out.name or f"number {number}",
                "surface_id": surface_id,
                "where": show_place(own[0]),
                "off_nm": off_nm,
            },
            (("surface", surface_id),),
        )


RULE = Rule(
    id="A10",
    problem="A place to keep out of does not lie on its surface, or takes all of it.",
    why="It keeps no line away from anything: it was drawn in another unit or place, and what "
    "it stands for will be cut.",
    cure="Draw it where it lies on the surface, or take it out of the plan.",
    sayings={
        "off_surface": FaultTemplate(
            Level.REFUSE,
            "The keep-out {name} does not touch {surface_id}: it begins at {where}, and its "
            "nearest edge is {off_nm:length} away.",
            "a place on the surface in the plan's unit and origin; or the plan without it",
        ),
        "takes_all": FaultTemplate(
            Level.REFUSE,
            "The keep-out {name} covers all of {surface_id}, so no line is left.",
            "a keep-out smaller than its surface; look whether its unit is right",
        ),
        "no_radius": FaultTemplate(
            Level.REFUSE,
            "The point {name} of {what}, at {where}, has no size, so no line would keep off it.",
            "one radius for all points (--radius 8in), or the point left out by its name "
            '(--leave-out "{name}")',
        ),
    },
    kinds=("surface", "layout"),
    examine=_examine,
)
