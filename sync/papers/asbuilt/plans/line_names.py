"""Names of lines at their ends: all where there is room, else first, last and round ones."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, sin
from statistics import median

from sync.papers.asbuilt.plans.label_search import DiscGrid
from sync.papers.drawing.primitives import Point, Polygon, Text, text_width_mm

STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500)
APART = 1.35
"""Least distance between neighbouring names, in heights of a capital."""
AWAY_MM = 0.9


@dataclass(frozen=True, slots=True)
class LineLabel:
    """A line as it falls on a sheet; ``goes_on`` at an end that the window cuts off.

    Groups of a lower ``rank`` are named first.
    """

    name: str
    group: str
    start: Point
    end: Point
    rank: int = 0
    starts_beyond: bool = False
    goes_on: bool = False


@dataclass(frozen=True, slots=True)
class LineLabels:
    """Names written at lines: which, every how many lines should have its name, how many have."""

    items: tuple[Polygon | Text, ...]
    every: int
    named: int
    count: int


def name_lines(lines: Iterable[LineLabel], spots: DiscGrid, cap_mm: float) -> LineLabels:
    """Name the lines of each group along its course."""
    groups: dict[str, list[LineLabel]] = defaultdict(list)
    for line in lines:
        groups[line.group].append(line)
    items: list[Polygon | Text] = []
    most, named, count = 1, 0, 0
    for _, group in sorted(groups.items(), key=lambda one: one[1][0].rank):
        ordered = sorted(group, key=lambda line: _across(line, _angle(group[0])))
        every = _every(ordered, cap_mm)
        most = max(most, every)
        for line in _in_turn(ordered, every):
            written = list(_write(line, spots, cap_mm))
            named += bool(written)
            items += written
        count += len(group)
    return LineLabels(tuple(items), most, named, count)


def _in_turn(ordered: list[LineLabel], every: int) -> list[LineLabel]:
    """Lines that are to be named: the first and the last before the round ones between."""
    ends = ordered[:1] + ordered[1:][-1:]
    between = [
        line
        for place, line in enumerate(ordered[1:-1], start=1)
        if _is_round(line.name, place, every)
    ]
    return ends + between


def _angle(line: LineLabel) -> float:
    return atan2(line.end[1] - line.start[1], line.end[0] - line.start[0]) % pi


def _across(line: LineLabel, angle: float) -> float:
    """Distance of a line's middle from the origin, square to the course of its group."""
    x, y = (line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2
    return y * cos(angle) - x * sin(angle)


def _every(ordered: list[LineLabel], cap_mm: float) -> int:
    """One in how many lines can have its name."""
    angle = _angle(ordered[0])
    gaps = [_across(b, angle) - _across(a, angle) for a, b in pairwise(ordered)]
    wide = [gap for gap in gaps if gap > 0.05]
    if not wide:
        return 1
    usual = median(wide)
    return next((step for step in STEPS if step * usual >= APART * cap_mm), STEPS[-1])


def _is_round(name: str, place: int, every: int) -> bool:
    """Whether a name's number is a round one; a name without a number goes by its place."""
    digits = name[len(name.rstrip("0123456789")) :]
    return (int(digits) if digits else place) % every == 0


def _write(line: LineLabel, spots: DiscGrid, cap_mm: float) -> Iterator[Polygon | Text]:
    """Beyond the right or upper end, else beyond the other, else on the line itself."""
    angle = _angle(line)
    if angle > pi * 0.75:  # steep to the left is read from the right
        angle -= pi
    low, high = sorted(
        (line.start, line.end), key=lambda at: at[0] * cos(angle) + at[1] * sin(angle)
    )
    beyond = {line.start: line.starts_beyond, line.end: line.goes_on}
    width = text_width_mm(line.name, cap_mm)
    long = hypot(high[0] - low[0], high[1] - low[1])
    after, before = AWAY_MM, -AWAY_MM - width
    tries = [(high, after)] if not beyond[high] else []
    tries += [(low, before)] if not beyond[low] else []
    if long > 2 * width:
        tries += [(high, before), (low, after)]
    for at, along in tries:
        put = spots.place_label(
            line.name,
            (at[0] + along * cos(angle), at[1] + along * sin(angle)),
            cap_mm,
            degrees(angle),
        )
        if put:
            yield from put
            return
