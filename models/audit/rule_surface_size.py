"""A29: a surface very small or very large, or a length that looks like another unit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import hypot

from models.audit.plan_view import USES, PlanView, ring_of
from models.audit.rule import FaultTemplate, Level, PlanFault, Rule
from models.entries.bodies.surfaces import Surface
from models.plan.line import PlannedLine, rows_of
from models.science.shapes.rings import signed_area_nm2
from models.units import NM_PER, LengthUnit, round_half_even
from models.units.filled_text import Fact

_FT = NM_PER[LengthUnit.FT]

LEAST_M2, MOST_M2 = 10, 50_000
"""Ten square metres and five hectares: common practice, no source."""

SLIPS = (10.0, 3.280_84)
"""A point moved by one place, and metres taken for feet (1 m is 1/0.3048 ft)."""
_NEAR = 0.01  # how nearly a ratio must be such a slip


def _examine(view: PlanView) -> Iterator[PlanFault]:
    for name, surface in view.surfaces.items():
        if len(surface.outline) >= 3:
            area_nm2 = abs(signed_area_nm2(ring_of(surface.outline)))
            if not LEAST_M2 <= area_nm2 / 10**18 <= MOST_M2:
                yield _fault("odd_area", name, "outline", "", {"area": _area(area_nm2)})
        for line, length_nm, other_nm in _odd_lines(surface):
            told: dict[str, Fact] = {"line_id": line.line_id, "length_nm": length_nm}
            told["expected_nm"] = other_nm
            yield _fault("odd_length", name, f"lines, {line.line_id}", line.line_id, told)


def _area(area_nm2: Fraction) -> str:
    """An area in both systems, to the whole square metre and square foot."""
    m2, ft2 = (round_half_even(area_nm2 / side_nm**2) for side_nm in (10**9, _FT))
    return f"{m2:,} m2 ({ft2:,} ft2)"


def _fault(saying: str, name: str, field: str, place: str, facts: Mapping[str, Fact]) -> PlanFault:
    told = {"surface_id": name, **facts}
    return PlanFault(RULE.id, saying, ("surface", name), field, place, told)


def _odd_lines(surface: Surface) -> Iterator[tuple[PlannedLine, int, int]]:
    """Lines with a length that their ends, or both their neighbours, have in another unit."""
    for line in surface.lines:
        straight_nm = round(hypot(line.x2_nm - line.x1_nm, line.y2_nm - line.y1_nm))
        if _is_slip(line.length_nm, straight_nm):
            yield line, line.length_nm, straight_nm
    for use in USES:
        lines = [one for one in surface.lines if one.use == use]
        pattern = surface.pattern_of(use)
        rows = rows_of(lines, pattern.spacing_nm if pattern is not None else 0)
        pieces = Counter(rows)
        alone = [one for one, row in zip(lines, rows, strict=True) if pieces[row] == 1]
        for before, line, after in zip(alone, alone[1:], alone[2:], strict=False):
            is_alike = abs(before.length_nm - after.length_nm) <= _NEAR * before.length_nm
            if is_alike and _is_slip(line.length_nm, before.length_nm):
                yield line, line.length_nm, before.length_nm


def _is_slip(one_nm: int, other_nm: int) -> bool:
    """Whether two lengths are in the ratio of a point moved, or of metres and feet."""
    small, large = sorted((one_nm, other_nm))
    return small > 0 and any(abs(large / small / slip - 1) <= _NEAR for slip in SLIPS)


RULE = Rule(
    id="A29",
    problem="A surface or a line has a size that looks like another unit.",
    why="A point moved or metres taken for feet makes a plan that can be laid: sand, time and "
    "price come out ten times off.",
    cure="Look at the unit of what was drawn; or say why it is so.",
    sayings={
        "odd_area": FaultTemplate(
            Level.ASK,
            "{surface_id} covers {area}.",
            "10 m2 to 5 ha (about 110 ft2 to 12 acres), or a reason",
        ),
        "odd_length": FaultTemplate(
            Level.ASK,
            "Line {line_id} of {surface_id} is {length_nm:length} long, where {expected_nm:length} "
            "is expected by its ends or the lines beside it.",
            "such a length, or a reason",
        ),
    },
    kinds=("surface",),
    examine=_examine,
)
