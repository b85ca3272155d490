"""The floor of a slit along its line: the deepest of the pieces that were cut there."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise, product
from math import asin, inf, sqrt
from typing import NamedTuple

from models.science.slits.ramps import Ramp

_LOOKS_BESIDE_AN_END = 13
"""Halvings of a stretch towards its ends: what arcs differ by in less can not be measured."""


class DepthReading(NamedTuple):
    """A depth that was measured at a place of a line."""

    along_nm: int
    depth_nm: int


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece that a blade cut of a line.

    Attributes
    ----------
    from_nm, to_nm : int
        From where to where along the line. [nm]
    depth_nm : int or Fraction
        Its depth where no reading of the line says another. [nm]
    blade_radius_nm : int
        Cutting radius of a round blade; 0 cuts square ends. [nm]
    """

    from_nm: int
    to_nm: int
    depth_nm: int | Fraction
    blade_radius_nm: int = 0

    def full_depth(self, design_nm: int) -> tuple[int, int] | None:
        """From where to where it is at full depth; None where it is nowhere [nm]."""
        ramp_nm = Ramp(self.blade_radius_nm, design_nm).length_nm
        if 2 * ramp_nm >= self.to_nm - self.from_nm:
            return None
        return self.from_nm + ramp_nm, self.to_nm - ramp_nm


class _Level(NamedTuple):
    """A floor that runs straight from one depth to another."""

    begin_nm: int
    end_nm: int
    depth_nm: int | Fraction
    end_depth_nm: int | Fraction

    def at(self, along_nm: float | Fraction) -> float:
        return float(self.exact(Fraction(along_nm)))

    def exact(self, along_nm: int | Fraction) -> int | Fraction:
        if along_nm == self.begin_nm or self.depth_nm == self.end_depth_nm:
            return self.depth_nm
        if along_nm == self.end_nm:
            return self.end_depth_nm
        share = Fraction(along_nm - self.begin_nm, self.end_nm - self.begin_nm)
        return self.depth_nm + (self.end_depth_nm - self.depth_nm) * share

    def area_nm2(
        self, begin_nm: int | Fraction, end_nm: int | Fraction, over_nm: int | Fraction
    ) -> Fraction:
        """Area below a level, from one place to another: a trapezium, or a triangle."""
        first, last = self.exact(begin_nm) - over_nm, self.exact(end_nm) - over_nm
        width = end_nm - begin_nm
        if first >= 0 and last >= 0:
            return Fraction(width * (first + last), 2)
        if first <= 0 and last <= 0:
            return Fraction(0)
        deeper = Fraction(first if first > last else last)
        return deeper * deeper * width / (2 * abs(Fraction(first - last)))


class _Arc(NamedTuple):
    """A floor along the edge of a round blade, scaled to the depth as it was measured."""

    middle_nm: Fraction
    radius_nm: int
    above_nm: float  # middle of the blade over the turf
    scale: Fraction

    def at(self, along_nm: float | Fraction) -> float:
        off_nm = float(along_nm - self.middle_nm)
        height_nm = sqrt(max(0.0, self.radius_nm**2 - off_nm**2))
        return float(self.scale) * (height_nm - self.above_nm)

    def area_nm2(
        self, begin_nm: int | Fraction, end_nm: int | Fraction, over_nm: int | Fraction
    ) -> Fraction:
        """Area below a level, from one place to another: part of a segment of a circle."""
        if not self.scale:
            return Fraction(0)
        above_nm = self.above_nm + float(over_nm / self.scale)
        if above_nm >= self.radius_nm:
            return Fraction(0)
        half_nm = sqrt(self.radius_nm**2 - above_nm**2) if above_nm > 0 else self.radius_nm
        first, last = (
            min(max(float(place - self.middle_nm), -half_nm), half_nm)
            for place in (begin_nm, end_nm)
        )
        return self.scale * (self._sum_nm2(last, above_nm) - self._sum_nm2(first, above_nm))

    def _sum_nm2(self, off_nm: float, above_nm: float) -> Fraction:
        """Area from the middle to a place; differences of it add up exactly."""
        share = min(1.0, max(-1.0, off_nm / self.radius_nm))
        height_nm = sqrt(max(0.0, self.radius_nm**2 - off_nm**2))
        round_nm2 = (off_nm * height_nm + self.radius_nm**2 * asin(share)) / 2
        return Fraction(round_nm2) - Fraction(above_nm) * Fraction(off_nm)


class FloorStretch(NamedTuple):
    """A stretch of a line on which one piece is the deepest all along."""

    begin_nm: int
    end_nm: int
    is_full_depth: bool
    floor: _Level | _Arc

    def area_nm2(
        self,
        window: tuple[int, int] | None,
        ramp_over_nm: int,
        full_over_nm: int | Fraction,
    ) -> Fraction:
        """Area below a level within a window; the level differs in ramps and at full depth."""
        begin, end = self.begin_nm, self.end_nm
        if window is not None:
            begin, end = max(begin, window[0]), min(end, window[1])
        if end <= begin:
            return Fraction(0)
        over_nm = full_over_nm if self.is_full_depth else ramp_over_nm
        return self.floor.area_nm2(begin, end, over_nm)


@dataclass(frozen=True, slots=True)
class FloorPlan:
    """Ends, readings and full depth of a line's pieces, by which its floor is drawn."""

    design_nm: int
    breaks: tuple[int, ...]
    full: tuple[tuple[int, int], ...]
    readings: tuple[DepthReading, ...]

    @classmethod
    def of(
        cls, pieces: Sequence[CutPiece], readings: Sequence[DepthReading], design_nm: int
    ) -> FloorPlan:
        """Gather them for a line; readings in a ramp, or outside every piece, are left out."""
        full = union_of([one for one in (p.full_depth(design_nm) for p in pieces) if one])
        held = sorted(r for r in readings if any(a <= r.along_nm <= b for a, b in full))
        breaks = {place for piece in pieces for place in (piece.from_nm, piece.to_nm)}
        for piece in pieces:
            breaks.update(piece.full_depth(design_nm) or ())
        breaks.update(reading.along_nm for reading in held)
        return cls(design_nm, tuple(sorted(breaks)), tuple(full), tuple(held))

    def stretches(
        self, pieces: Sequence[CutPiece], within: CutPiece | None = None
    ) -> list[FloorStretch]:
        """Deepest floor of some of the pieces, from left to right; along one of them if given."""
        found: list[FloorStretch] = []
        for begin, end in pairwise(self.breaks):
            if within is not None and not within.from_nm <= begin < within.to_nm:
                continue
            over = [one for one in pieces if one.from_nm <= begin and end <= one.to_nm]
            if not over:
                continue
            # Readings give a line cut again and again one floor: it crosses itself nowhere.
            floors = list(dict.fromkeys(self._floor(one, begin, end) for one in over))
            is_full = any(a <= begin and end <= b for a, b in self.full)
            if len(floors) == 1:
                found.append(FloorStretch(begin, end, is_full, floors[0]))
                continue
            for left, right in pairwise(_crossings(floors, begin, end)):
                middle = Fraction(left + right, 2)
                deepest = max(floors, key=lambda floor: floor.at(middle))
                found.append(FloorStretch(left, right, is_full, deepest))
        return found

    def _floor(self, piece: CutPiece, begin: int, end: int) -> _Level | _Arc:
        """Floor of one piece between neighbouring breaks."""
        full = piece.full_depth(self.design_nm)
        radius = piece.blade_radius_nm
        if full is None:
            half = Fraction(piece.to_nm - piece.from_nm, 2)
            above = sqrt(radius**2 - float(half) ** 2)
            middle = piece.from_nm + half
            scale = Fraction(self._depth_at(piece, middle), self.design_nm)
            return _Arc(middle, radius, above, scale)
        if full[0] <= begin and end <= full[1]:
            return _Level(begin, end, self._depth_at(piece, begin), self._depth_at(piece, end))
        foot = full[0] if end <= full[0] else full[1]
        scale = Fraction(self._depth_at(piece, foot), self.design_nm)
        return _Arc(Fraction(foot), radius, float(radius - self.design_nm), scale)

    def _depth_at(self, piece: CutPiece, along_nm: int | Fraction) -> int | Fraction:
        """Straight between readings, as the nearest beyond them, else as the piece says."""
        if not self.readings:
            return piece.depth_nm
        after = bisect_right(self.readings, (along_nm, inf))
        if after == 0:
            return self.readings[0].depth_nm
        lower = self.readings[after - 1]
        if after == len(self.readings) or lower.along_nm == along_nm:
            return lower.depth_nm
        upper = self.readings[after]
        share = Fraction(along_nm - lower.along_nm, upper.along_nm - lower.along_nm)
        return lower.depth_nm + (upper.depth_nm - lower.depth_nm) * share


def union_of(stretches: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches as disjoint ones in order; those that meet are one.

    Parameters
    ----------
    stretches : sequence of (int, int)
        From where to where each goes. [nm]

    Returns
    -------
    union : list of (int, int)
        What at least one of them covers. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: 0 to 5 and 5 to 9 meet.

    >>> union_of([(5, 9), (0, 5), (12, 13)])
    [(0, 9), (12, 13)]
    """
    union: list[tuple[int, int]] = []
    for begin, end in sorted(stretches):
        if union and begin <= union[-1][1]:
            union[-1] = (union[-1][0], max(union[-1][1], end))
        else:
            union.append((begin, end))
    return union


def _crossings(floors: Sequence[_Level | _Arc], begin: int, end: int) -> list[int]:
    """Places where one floor comes below another, to the nanometre, with both ends."""
    places = {begin, end}
    # Arcs that meet at an end may cross again beside it: look nearer and nearer to both ends.
    near = [(end - begin) >> halving for halving in range(1, _LOOKS_BESIDE_AN_END)]
    looks = sorted({begin, end, *(begin + off for off in near), *(end - off for off in near)})
    for (one, other), (first, last) in product(combinations(floors, 2), pairwise(looks)):
        is_deeper = one.at(first) > other.at(first)
        if is_deeper == (one.at(last) > other.at(last)):
            continue
        low, high = first, last
        while high - low > 1:
            middle = (low + high) // 2
            if (one.at(middle) > other.at(middle)) == is_deeper:
                low = middle
            else:
                high = middle
        places.add(low)
    return sorted(places)
