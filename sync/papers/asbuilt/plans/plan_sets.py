"""Plots laid out over numbered sheets, before any is drawn."""

from __future__ import annotations

from dataclasses import dataclass

from sync.papers.asbuilt.features.plots import Plot
from sync.papers.asbuilt.plans.paper_sizes import PaperSheet, Scale
from sync.papers.asbuilt.plans.strokes import without_empty
from sync.papers.asbuilt.plans.tiles import PlanTiling, tile_plan

STRIP_MM = 58.0
GAP_MM = 4.0
"""Width of the strip beside a plan, and the room between the two."""


@dataclass(frozen=True, slots=True)
class PlanSet:
    """A plot at its scale, and the number of its first sheet in the whole set."""

    plot: Plot
    sheeting: PlanTiling
    first: int

    def name(self, place: int) -> str:
        """Name of a sheet of the plot."""
        count = len(self.sheeting.tiles)
        part = f", part {place + 1} of {count}" if count > 1 else ""
        return f"Plan {self.plot.name}{part}"

    def sheet_number(self, place: int) -> int:
        """Number of a sheet of the plot in the whole set."""
        return self.first + place


def window_mm(sheet: PaperSheet) -> tuple[float, float]:
    """Size of the drawing on a plan sheet."""
    return sheet.inside - STRIP_MM - GAP_MM, sheet.tall


def plan_sets(
    plots: list[Plot], sheet: PaperSheet, scale: Scale | None, first: int
) -> list[PlanSet]:
    """Lay every plot out over sheets numbered from ``first``."""
    sets = []
    for plot in plots:
        sheeting = without_empty(plot, tile_plan(plot, window_mm(sheet), scale))
        sets.append(PlanSet(plot, sheeting, first))
        first += len(sheeting.tiles)
    return sets
