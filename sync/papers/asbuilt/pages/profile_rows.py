"""Rows of figures under a profile: each shot's, on end at its station."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sync.papers.drawing.primitives import Anchor, Line, Primitive, Text, Tone, text_width_mm

CAP_MM = 1.8
_APART_MM = 1.45 * CAP_MM


@dataclass(frozen=True, slots=True)
class FigureRow:
    """A row of figures: its name, and a figure for each station in nm."""

    name: str
    figures: tuple[tuple[int, str], ...]

    @property
    def height_mm(self) -> float:
        """Room that its longest figure takes on end."""
        longest = max((text_width_mm(text, CAP_MM) for _, text in self.figures), default=6.0)
        return longest + 1.4


def rows_height(rows: tuple[FigureRow, ...]) -> float:
    """Height of all rows."""
    return sum(row.height_mm for row in rows)


def draw_rows(
    rows: tuple[FigureRow, ...], x: Callable[[float], float], top_mm: float, right_mm: float
) -> Iterator[Primitive]:
    """Draw the rows from the top down; a figure too near the one before is left out."""
    y = top_mm
    for row in rows:
        yield Line((0.0, y), (right_mm + 1.5, y), 0.15, Tone.RULE)
        bottom = y - row.height_mm
        yield Text((0.0, y - row.height_mm / 2 - CAP_MM / 2), row.name, CAP_MM, Anchor.LEFT)
        last = -_APART_MM
        for station_nm, text in row.figures:
            at = x(station_nm)
            if at - last >= _APART_MM:
                yield Text((at + CAP_MM / 2, bottom + 0.7), text, CAP_MM, angle_deg=90.0)
                last = at
        y = bottom
    yield Line((0.0, y), (right_mm + 1.5, y), 0.15, Tone.RULE)
