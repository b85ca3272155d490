"""Stretches of a collector, from station to station: joined, and taken from one another."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

Stretch = tuple[int, int]
"""Lower and higher station, in nm."""

_Item = TypeVar("_Item")


class StretchUnion:
    """Union of stretches: joined where they touch or overlap, in order as more are added."""

    def __init__(self, stretches: Iterable[Stretch] = ()) -> None:
        self._lows: list[int] = []
        self._highs: list[int] = []
        for stretch in sorted(stretches):
            self.add(stretch)

    def add(self, stretch: Stretch) -> None:
        """Add a stretch to the union; a stretch without length covers nothing."""
        low, high = stretch
        if low >= high:
            return
        first, after = bisect_left(self._highs, low), bisect_right(self._lows, high)
        if first < after:
            low = min(low, self._lows[first])
            high = max(high, self._highs[after - 1])
        self._lows[first:after] = [low]
        self._highs[first:after] = [high]

    def parts(self) -> list[Stretch]:
        """Stretches that the union covers, in order."""
        return list(zip(self._lows, self._highs, strict=True))

    def overlaps(self, stretch: Stretch) -> bool:
        """Whether the union covers some length of a stretch."""
        place = bisect_right(self._highs, stretch[0])
        return place < len(self._lows) and max(self._lows[place], stretch[0]) < stretch[1]

    def missing_from(self, stretch: Stretch) -> list[Stretch]:
        """Parts of a stretch that the union does not cover."""
        bare = []
        start, end = stretch
        for place in range(bisect_right(self._highs, start), len(self._lows)):
            if self._lows[place] >= end:
                break
            if self._lows[place] > start:
                bare.append((start, self._lows[place]))
            start = self._highs[place]
        if start < end:
            bare.append((start, end))
        return bare


def merge_stretches(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Stretches in order, those that touch or overlap made one."""
    return [joint for joint, _ in merge_with_items([(stretch, None) for stretch in stretches])]


def merge_with_items(
    pairs: Sequence[tuple[Stretch, _Item]],
) -> Iterator[tuple[Stretch, list[_Item]]]:
    """Joined stretches, each with what belongs to its pieces, in the order given."""
    joint: Stretch | None = None
    members: list[int] = []
    for place in sorted(range(len(pairs)), key=lambda place: pairs[place][0]):
        low, high = pairs[place][0]
        if joint is not None and low <= joint[1]:
            joint = (joint[0], max(joint[1], high))
            members.append(place)
            continue
        if joint is not None:
            yield joint, [pairs[member][1] for member in sorted(members)]
        joint, members = (low, high), [place]
    if joint is not None:
        yield joint, [pairs[member][1] for member in sorted(members)]


def subtract_stretches(stretch: Stretch, taken: Iterable[Stretch]) -> list[Stretch]:
    """Parts of a stretch that others leave uncovered."""
    return StretchUnion(taken).missing_from(stretch)


def is_within(stretch: Stretch, taken: Iterable[Stretch]) -> bool:
    """Whether other stretches cover the whole of a stretch, its ends included."""
    return any(low <= stretch[0] and stretch[1] <= high for low, high in merge_stretches(taken))


def intersection(one: Stretch, other: Stretch) -> Stretch | None:
    """Overlap of two stretches, or None where they only touch."""
    low, high = max(one[0], other[0]), min(one[1], other[1])
    return (low, high) if low < high else None


def bad_runs(items: Sequence[_Item], is_bad: Callable[[_Item], bool]) -> Iterator[list[_Item]]:
    """Runs of neighbouring items that are all bad."""
    for bad, run in groupby(items, key=is_bad):
        if bad:
            yield list(run)
