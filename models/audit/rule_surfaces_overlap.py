"""A28: surfaces that lie over each other, or a line of one in another."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from models.audit.plan_view import PlanView, first_lines, ring_of
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.entries.bodies.surfaces import Surface
from models.science.shapes.ring_places import grounds_overlap, runs_through
from models.science.shapes.rings import PointNm, Ring


def _examine(view: PlanView) -> Iterator[PlanFault]:
    rings = {
        name: ring
        for name, surface in view.surfaces.items()
        if len(ring := ring_of(surface.outline)) >= 3
    }
    over = [pair for pair in combinations(sorted(rings), 2) if _overlap(rings, pair)]
    for name, other in over:
        yield _fault("overlap", name, other, {})
    for name, surface in view.surfaces.items():
        for other, ring in rings.items():
            if other == name or (name, other) in over or (other, name) in over:
                continue
            strays = list(_lines_in(surface, ring))
            if strays:
                facts: dict[str, int | str] = {"lines": first_lines(strays)}
                facts["count"] = len(strays)
                yield _fault("line_inside", name, other, facts)


def _overlap(rings: dict[str, Ring], pair: tuple[str, str]) -> bool:
    return grounds_overlap(rings[pair[0]], rings[pair[1]])


def _fault(saying: str, name: str, other: str, facts: dict[str, int | str]) -> PlanFault:
    return PlanFault(
        RULE.id,
        saying,
        ("surface", name),
        "lines" if facts else "outline",
        other,
        {"surface_id": name, "other": other, **facts},
        (("surface", other),),
    )


def _lines_in(surface: Surface, ring: Ring) -> Iterator[str]:
    """Names of the lines that run through the ground of another surface."""
    for line in surface.lines:
        start, end = PointNm(line.x1_nm, line.y1_nm), PointNm(line.x2_nm, line.y2_nm)
        if runs_through(start, end, ring):
            yield line.line_id


RULE = Rule(
    id="A28",
    problem="Two surfaces lie over each other.",
    why="The same ground would be cut, filled and counted twice; one of them lies in another "
    "place, or was drawn from another origin.",
    cure="Move the one that lies wrong, or say why they share ground.",
    sayings={
        "overlap": FaultTemplate(
            Level.ASK,
            "{surface_id} and {other} overlap.",
            "outlines that touch at most, or a reason",
        ),
        "line_inside": FaultTemplate(
            Level.ASK,
            "Lines of {surface_id} run through {other}: {lines}.",
            "lines on their own surface, or a reason",
        ),
    },
    kinds=("surface",),
    examine=_examine,
)
