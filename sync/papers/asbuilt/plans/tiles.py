"""Tiling of a plan on paper: to a scale of the trade, on one sheet or cut over several."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from models.errors import CrewError
from sync.papers.asbuilt.features.plots import NmPoint, Plot
from sync.papers.asbuilt.plans.paper_sizes import Scale, trade_scales
from sync.papers.drawing.primitives import Point

AROUND_MM = 9.0
"""Paper kept round the work, for the names of lines."""
LEGIBLE_MM = 0.8
"""Lines nearer to each other than this can't be told apart on paper."""
MOST_TILES = 60


class ScaleTooLargeError(CrewError, ValueError):
    """A scale is wanted that would need a stack of paper."""

    code = "asbuilt.scale_too_large"
    sentence = (
        "Cannot draw {plot} to {scale}: it would take "
        "{count:sheet|sheets} of this paper, and more than "
        "{most} can't be laid out. {fits} would be accepted, or a larger paper."
    )


@dataclass(frozen=True, slots=True)
class Tile:
    """A sheet of a plan: its column and row, and the middle of its window on the ground."""

    column: int
    row: int
    middle: Point


@dataclass(frozen=True, slots=True)
class PlanTiling:
    """A plan at its scale; ``is_turned`` lays it on its side, north to the left."""

    scale: Scale
    is_turned: bool
    window_mm: tuple[float, float]
    tiles: tuple[Tile, ...]

    def to_paper(self, point: NmPoint) -> NmPoint:
        """A point of the plan as it lies on the paper."""
        return (-point[1], point[0]) if self.is_turned else point

    def to_window(self, tile: Tile, point: NmPoint) -> Point:
        """Place of a point in mm from the middle of a sheet's window."""
        x, y = self.to_paper(point)
        per_nm = self.scale.mm_per_nm
        return (x - tile.middle[0]) * per_nm, (y - tile.middle[1]) * per_nm

    def neighbours(self, tile: Tile) -> dict[str, int]:
        """Numbers of the sheets beside one, by the side of the paper they join at."""
        places = {(one.column, one.row): number for number, one in enumerate(self.tiles)}
        sides = {"left": (-1, 0), "right": (1, 0), "down": (0, -1), "up": (0, 1)}
        found = {
            side: places.get((tile.column + step[0], tile.row + step[1]))
            for side, step in sides.items()
        }
        return {side: number for side, number in found.items() if number is not None}


def tile_plan(plot: Plot, window_mm: tuple[float, float], scale: Scale | None) -> PlanTiling:
    """Choose scale, turn and sheets of a plan.

    The largest scale that fits on one sheet is taken if lines can be told apart at it;
    else the smallest at which they can, cut over as many sheets as it takes.

    Raises
    ------
    ScaleTooLargeError
        If the scale asked for would take more sheets than can be laid out.
    """
    box = plot.box()
    assert box is not None
    sides = (box[2] - box[0], box[3] - box[1])
    if scale is not None:
        return _asked(plot, box, sides, window_mm, scale)
    return _fitting(plot, box, sides, window_mm)


_Box = tuple[int, int, int, int]


def _asked(
    plot: Plot, box: _Box, sides: NmPoint, window_mm: tuple[float, float], scale: Scale
) -> PlanTiling:
    is_turned = _count(sides[::-1], window_mm, scale) < _count(sides, window_mm, scale)
    count = _count(sides[::-1] if is_turned else sides, window_mm, scale)
    if count > MOST_TILES:
        fits = _first_fitting(sides, window_mm, scale.is_us)
        raise ScaleTooLargeError(
            plot=plot.name, scale=scale.words, count=count, most=MOST_TILES, fits=fits.words
        )
    return _sheeting(box, window_mm, scale, is_turned)


def _fitting(plot: Plot, box: _Box, sides: NmPoint, window_mm: tuple[float, float]) -> PlanTiling:
    is_us = plot.is_us
    scale, is_turned = _first_fitting(sides, window_mm, is_us), False
    lying = _first_fitting(sides[::-1], window_mm, is_us)
    if lying.denominator < scale.denominator:
        scale, is_turned = lying, True
    spacing = plot.spacing_nm()
    if spacing and spacing * scale.mm_per_nm < LEGIBLE_MM - 1e-9:
        legible = [
            one
            for one in trade_scales(is_us)
            if spacing * one.mm_per_nm >= LEGIBLE_MM - 1e-9
            and _count(sides, window_mm, one) <= MOST_TILES
        ]
        if legible:
            scale = legible[-1]
            is_turned = _count(sides[::-1], window_mm, scale) < _count(sides, window_mm, scale)
    return _sheeting(box, window_mm, scale, is_turned)


def _first_fitting(sides: NmPoint, window_mm: tuple[float, float], is_us: bool) -> Scale:
    """Largest scale of the trade at which all fits on one sheet; past the smallest, a round one."""
    scales = trade_scales(is_us)
    for scale in scales:
        if _count(sides, window_mm, scale) == 1:
            return scale
    last = scales[-1]
    while _count(sides, window_mm, last) > 1:
        last = Scale(last.denominator * 2, is_us)
    return last


def _count(sides: NmPoint, window_mm: tuple[float, float], scale: Scale) -> int:
    across, up = (_parts(side, room, scale) for side, room in zip(sides, window_mm, strict=True))
    return across * up


def _parts(side_nm: int, room_mm: float, scale: Scale) -> int:
    """Sheets side by side; the outer two keep paper round the work."""
    return max(1, ceil((side_nm * scale.mm_per_nm + 2 * AROUND_MM) / room_mm - 1e-9))


def _sheeting(
    box: _Box, window_mm: tuple[float, float], scale: Scale, is_turned: bool
) -> PlanTiling:
    """Lay sheets over the plan, centred, from the upper left to the lower right."""
    least, most = (box[0], box[1]), (box[2], box[3])
    if is_turned:
        least, most = (-box[3], box[0]), (-box[1], box[2])
    sides = (most[0] - least[0], most[1] - least[1])
    counts = [_parts(side, room, scale) for side, room in zip(sides, window_mm, strict=True)]
    tiles = []
    for row in reversed(range(counts[1])):
        for column in range(counts[0]):
            middle = [
                (least[axis] + most[axis]) / 2
                + (place - (counts[axis] - 1) / 2) * window_mm[axis] / scale.mm_per_nm
                for axis, place in enumerate((column, row))
            ]
            tiles.append(Tile(column, row, (middle[0], middle[1])))
    return PlanTiling(scale, is_turned, window_mm, tuple(tiles))
