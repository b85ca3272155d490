"""Finds free room for a rotated label by covering it with discs."""

from __future__ import annotations

from collections import defaultdict
from math import cos, hypot, radians, sin

from sync.papers.drawing.clipping import are_inside
from sync.papers.drawing.primitives import Anchor, Point, Polygon, Text, Tone, text_width_mm

HALO_MM = 0.35


class DiscGrid:
    """Discs taken so far, kept in squares so that asking costs what lies near."""

    def __init__(self, half: Point) -> None:
        self.half = half
        self._cells: dict[tuple[int, int], list[tuple[Point, float]]] = defaultdict(list)

    def block(self, at: Point, radius_mm: float) -> None:
        """Keep a disc clear."""
        self._cells[_cell(at)].append((at, radius_mm))

    def is_free(self, at: Point, radius_mm: float) -> bool:
        """Whether a disc touches none that is taken."""
        x, y = _cell(at)
        near = (
            disc
            for column in range(x - 1, x + 2)
            for row in range(y - 1, y + 2)
            for disc in self._cells.get((column, row), ())
        )
        return all(
            hypot(at[0] - other[0], at[1] - other[1]) >= radius_mm + radius
            for other, radius in near
        )

    def place_label(
        self,
        text: str,
        at: Point,
        cap_mm: float,
        angle_deg: float = 0.0,
        *,
        bold: bool = False,
        is_anchored_right: bool = False,
    ) -> list[Polygon | Text]:
        """Write a name that begins at a point, middle high, if it is inside and covers nothing.

        Widths are reckoned a little wide; one anchored right ends where that width does.
        """
        width = text_width_mm(text, cap_mm, bold)
        turn = (cos(radians(angle_deg)), sin(radians(angle_deg)))
        radius = 0.6 * cap_mm
        count = max(1, round(width / radius))
        discs = [_step(at, turn, width * share / count, 0.0) for share in range(count + 1)]
        corners = [
            _step(at, turn, along, up)
            for along, up in (
                (-HALO_MM, -0.5 * cap_mm - HALO_MM),
                (width + HALO_MM, -0.5 * cap_mm - HALO_MM),
                (width + HALO_MM, 0.5 * cap_mm + HALO_MM),
                (-HALO_MM, 0.5 * cap_mm + HALO_MM),
            )
        ]
        if not are_inside(corners, self.half):
            return []
        if not all(self.is_free(disc, radius) for disc in discs):
            return []
        for disc in discs:
            self.block(disc, radius)
        base = _step(at, turn, width if is_anchored_right else 0.0, -cap_mm / 2)
        anchor = Anchor.RIGHT if is_anchored_right else Anchor.LEFT
        words = Text(base, text, cap_mm, anchor, bold, angle_deg=angle_deg)
        return [Polygon(tuple(corners), Tone.PAPER), words]


_SQUARE_MM = 8.0


def _cell(at: Point) -> tuple[int, int]:
    return int(at[0] // _SQUARE_MM), int(at[1] // _SQUARE_MM)


def _step(at: Point, turn: Point, along: float, up: float) -> Point:
    return at[0] + along * turn[0] - up * turn[1], at[1] + along * turn[1] + up * turn[0]
