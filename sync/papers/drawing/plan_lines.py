"""Lines of a plan as primitives: weights that fit their spacing, and how many are drawn."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import ceil, hypot
from statistics import median

from sync.papers.drawing.primitives import Dash, Line, Point, Tone

TODAY_MM, DONE_MM, PLANNED_MM = 0.9, 0.3, 0.25
THINNEST_MM = 0.15
APART_MM = 1.1
"""Planned lines nearer than this would run into grey: then one in two, in three... is drawn."""


class LineProgress(StrEnum):
    """Status of a planned line on the drawing."""

    PLANNED = "planned"
    DONE = "done"
    TODAY = "today"


Slit = tuple[LineProgress, Point, Point]


@dataclass(frozen=True, slots=True)
class Slits:
    """Lines as drawn: done ones all, planned ones one in ``every``."""

    items: tuple[Line, ...]
    every: int


def draw_slits(slits: list[Slit]) -> Slits:
    """Draw planned lines lowest, then what was done, then what was done on the day."""
    drawn: dict[LineProgress, list[Line]] = {standing: [] for standing in LineProgress}
    most = 1
    for course in _courses(slits):
        apart = _apart(course)
        every = ceil(APART_MM / apart) if 0 < apart < APART_MM else 1
        if any(standing is LineProgress.PLANNED for standing, _, _ in course):
            most = max(most, every)
        for number, (standing, start, end) in enumerate(course):
            if standing is not LineProgress.PLANNED or number % every == 0:
                drawn[standing].append(_line(standing, start, end, apart))
    return Slits(tuple(line for lines in drawn.values() for line in lines), most)


def _courses(slits: list[Slit]) -> list[list[Slit]]:
    """Lines that run across the drawing, and lines that run up it."""
    across = [slit for slit in slits if _is_across(slit)]
    return [across, [slit for slit in slits if not _is_across(slit)]]


def _is_across(slit: Slit) -> bool:
    _, start, end = slit
    return abs(end[0] - start[0]) >= abs(end[1] - start[1])


def _apart(course: list[Slit]) -> float:
    """Usual distance between neighbours; 0 where there is none."""
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for _, a, b in course]
    if not course:
        return 0.0
    side = 1 if _is_across(course[0]) else 0
    places = sorted(middle[side] for middle in middles)
    gaps = [hypot(other - one) for one, other in pairwise(places) if other > one]
    return median(gaps) if gaps else 0.0


def _line(standing: LineProgress, start: Point, end: Point, apart: float) -> Line:
    if standing is LineProgress.TODAY:
        return Line(start, end, _weight(TODAY_MM, 0.62 * apart), Tone.TODAY)
    if standing is LineProgress.DONE:
        return Line(start, end, _weight(DONE_MM, 0.4 * apart), Tone.INK)
    return Line(start, end, PLANNED_MM, Tone.PLANNED, Dash.DASHED)


def _weight(usual_mm: float, room_mm: float) -> float:
    """Weight of a line that leaves paper between it and the next."""
    return usual_mm if room_mm <= 0 else max(THINNEST_MM, min(usual_mm, room_mm))
