"""A30: a collector whose course lies off the surfaces that drain to it."""

from __future__ import annotations

from collections.abc import Iterator

from models.audit.plan_view import PlanView, ring_of
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.science.shapes.ring_places import gap_nm
from models.science.shapes.rings import Ring, show_place
from models.units import NM_PER, LengthUnit

FAR_NM = 100 * NM_PER[LengthUnit.FT]
"""From where on it is asked about: common practice, no source."""
OFF_SITE_NM = 1000 * NM_PER[LengthUnit.M]
"""From where on it is another unit or origin: common practice, no source."""


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, collector in view.collectors.items():
        course = ring_of(collector.design.path)
        drawn = _surfaces(view, name)
        if len(course) < 2 or not drawn:
            continue
        off_nm, nearest = min((gap_nm(course, drawn[one], is_closed=False), one) for one in drawn)
        if off_nm > FAR_NM:
            yield PlanFault(
                RULE.id,
                "off_site" if off_nm > OFF_SITE_NM else "far_off",
                ("collector", name),
                "design, path",
                facts={
                    "collector_id": name,
                    "surface_id": nearest,
                    "where": show_place(course[0]),
                    "off_nm": off_nm,
                    "limit_nm": FAR_NM,
                },
                others=tuple(("surface", one) for one in drawn),
            )


def _surfaces(view: PlanView, collector_id: str) -> dict[str, Ring]:
    """Outlines of what drains to a collector; of all surfaces where nothing says so."""
    rings = {
        name: ring
        for name, surface in view.surfaces.items()
        if len(ring := ring_of(surface.outline)) >= 3
    }
    own = {name for name in rings if view.surfaces[name].collector_id == collector_id}
    return {name: ring for name, ring in rings.items() if name in own or not own}


RULE = Rule(
    id="A30",
    problem="A collector lies far off the surfaces of the job.",
    why="No slit can be joined to it: it was drawn in another unit or from another origin.",
    cure="Draw its course in the plan's unit and origin; or say why it lies there.",
    sayings={
        "off_site": FaultTemplate(
            Level.REFUSE,
            "{collector_id} begins at {where}, and its course is {off_nm:length} from "
            "{surface_id}, the nearest surface.",
            "a course within {limit_nm:length} of it, in the plan's unit and origin",
        ),
        "far_off": FaultTemplate(
            Level.ASK,
            "The course of {collector_id} is {off_nm:length} from {surface_id}, the nearest "
            "surface.",
            "a course within {limit_nm:length} of it, or a reason",
        ),
    },
    kinds=("surface", "collector"),
    examine=_examine,
)
