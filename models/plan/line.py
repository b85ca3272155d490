"""A planned slit in local plane coordinates."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot
from typing import Literal

from pydantic import Field

from models.plan.field_types import Coordinate, Label, Span
from models.plan.record import Record

LineUse = Literal["sand_slit", "piped_slit"]

_OFF_ROW = 0.1  # of a spacing; farther off, a line is on no row of it
_MOST_ROWS = 20_000


class PlannedLine(Record):
    """A straight slit from its start to its end, as drawn on the plan."""

    line_id: Label = Field(description="name of the line on its surface, such as S07 or P02")
    use: LineUse = Field(description="sand slit, or slit with a pipe on its floor")
    x1_nm: Coordinate = Field(description="start, east of the local origin, nm")
    y1_nm: Coordinate = Field(description="start, north of the local origin, nm")
    x2_nm: Coordinate = Field(description="end, east of the local origin, nm")
    y2_nm: Coordinate = Field(description="end, north of the local origin, nm")
    length_nm: Span = Field(description="planned length, nm")


def rows_of(lines: Sequence[PlannedLine], spacing_nm: int) -> list[int]:
    """Row of each line: how many spacings from the first; pieces of a line share it.

    Where lines don't lie on rows of that spacing, side by side and all on one side of the
    first, each is a row of its own, in the order of the plan.
    """
    in_order = list(range(len(lines)))
    if len(lines) < 2 or spacing_nm <= 0:
        return in_order
    first = lines[0]
    way_x, way_y = first.x2_nm - first.x1_nm, first.y2_nm - first.y1_nm
    length_nm = hypot(way_x, way_y)
    if not length_nm:
        return in_order
    stretches: list[tuple[int, float, float]] = []
    for line in lines:
        ends = [
            (x - first.x1_nm, y - first.y1_nm)
            for x, y in ((line.x1_nm, line.y1_nm), (line.x2_nm, line.y2_nm))
        ]
        off = [(way_x * y - way_y * x) / length_nm / spacing_nm for x, y in ends]
        if max(abs(one - round(off[0])) for one in off) > _OFF_ROW:
            return in_order
        along = sorted((way_x * x + way_y * y) / length_nm for x, y in ends)
        stretches.append((round(off[0]), along[0], along[1]))
    rows = [row for row, _, _ in stretches]
    if min(rows) < 0 < max(rows) or max(map(abs, rows)) > _MOST_ROWS or _overlap(stretches):
        return in_order
    return [abs(row) for row in rows]


def _overlap(stretches: list[tuple[int, float, float]]) -> bool:
    """Whether two lines of a row lie on each other, so that they are no pieces of one."""
    in_turn = sorted(stretches)
    return any(
        row == other and begin < end - 1 for (row, _, end), (other, begin, _) in pairwise(in_turn)
    )
