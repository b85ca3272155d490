"""Points of the local plane, courses over them, places along a course and stretches of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from models.plan.collector import PlanPoint
from models.science.shapes.rings import PointNm, distance_nm
from models.units import round_half_even

BEYOND_NM = 1_000_000_000
"""A place up to this far beyond an end of its course lies in its straight continuation."""


@dataclass(frozen=True, slots=True)
class Place:
    """A point of the local plane, with its level where one was measured."""

    x_nm: int
    y_nm: int
    level_nm: int | None = None


@dataclass(frozen=True, slots=True)
class ByPosition:
    """Where the tablet held itself to be, and the radius that it states for it; None unknown."""

    lat_ndeg: int
    lon_ndeg: int
    good_to_nm: int | None


Course = tuple[Place, ...]


def course_of(points: Iterable[PlanPoint]) -> Course:
    """Points of a plan as places."""
    return tuple(Place(point.x_nm, point.y_nm) for point in points)


def apart_nm(one: Place, other: Place) -> int:
    """Level distance between two places."""
    return distance_nm(PointNm(one.x_nm, one.y_nm), PointNm(other.x_nm, other.y_nm))


def course_length_nm(course: Sequence[Place]) -> int:
    """Length along a course."""
    return sum(apart_nm(one, other) for one, other in pairwise(course))


def place_along(course: Sequence[Place], along_nm: int) -> Place | None:
    """Place at a distance along a course; None where the course does not reach."""
    sides = [(a, b, apart_nm(a, b)) for a, b in pairwise(course) if apart_nm(a, b)]
    if not sides or along_nm < -BEYOND_NM:
        return None
    left_nm = along_nm
    for number, (start, end, length_nm) in enumerate(sides, start=1):
        is_last = number == len(sides)
        if left_nm <= length_nm + (BEYOND_NM if is_last else 0):
            return _on_side(start, end, length_nm, left_nm)
        left_nm -= length_nm
    return None


def _on_side(start: Place, end: Place, length_nm: int, along_nm: int) -> Place:
    return Place(
        start.x_nm + round_half_even((end.x_nm - start.x_nm) * along_nm, length_nm),
        start.y_nm + round_half_even((end.y_nm - start.y_nm) * along_nm, length_nm),
    )


def bends_between(course: Sequence[Place], from_nm: int, to_nm: int) -> list[tuple[int, Place]]:
    """Bends of a course strictly between two distances along it, each with its own distance."""
    found, along_nm = [], 0
    for start, end in pairwise(course):
        if from_nm < along_nm < to_nm:
            found.append((along_nm, start))
        along_nm += apart_nm(start, end)
    return found


def stretch(course: Sequence[Place], from_nm: int, to_nm: int) -> Course:
    """Part of a course between two distances along it; empty where it has no such part."""
    ends = place_along(course, from_nm), place_along(course, to_nm)
    if ends[0] is None or ends[1] is None or from_nm >= to_nm:
        return ()
    return (ends[0], *(place for _, place in bends_between(course, from_nm, to_nm)), ends[1])


def laid_course(
    course: Sequence[Place], start_nm: int, shots: Sequence[tuple[int, Fraction]]
) -> Course:
    """Pipe as shot: a place at each station with its level, and the bends between them.

    A bend's level lies straight between its neighbouring shots. Empty with fewer than two
    shots that lie on the course.
    """
    placed = [shot for shot in shots if place_along(course, shot[0] - start_nm) is not None]
    if len(placed) < 2:
        return ()
    found = _at_level(course, placed[0][0] - start_nm, placed[0][1])
    for (near, low), (far, high) in pairwise(placed):
        for along, bend in bends_between(course, near - start_nm, far - start_nm):
            share = Fraction(along + start_nm - near, far - near)
            found.append(replace(bend, level_nm=round(low + share * (high - low))))
        found += _at_level(course, far - start_nm, high)
    return tuple(found)


def _at_level(course: Sequence[Place], along_nm: int, level_nm: Fraction) -> list[Place]:
    place = place_along(course, along_nm)
    return [replace(place, level_nm=round(level_nm))] if place is not None else []
