"""Stretches of a collector, from station to station: joined, and taken from one another."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

Stretch = tuple[int, int]
"""Lower and higher station, in nm."""

_Item = TypeVar("_Item")


def joined(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Stretches in order, those that touch or overlap made one."""
    found: list[Stretch] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def without(stretch: Stretch, taken: Iterable[Stretch]) -> list[Stretch]:
    """What is left of a stretch once others are taken from it."""
    left = []
    start, end = stretch
    for low, high in joined(taken):
        if low > start and start < end:
            left.append((start, min(low, end)))
        start = max(start, high)
    if start < end:
        left.append((start, end))
    return [(low, high) for low, high in left if low < high]


def is_within(stretch: Stretch, taken: Iterable[Stretch]) -> bool:
    """Whether others cover the whole of a stretch, its ends included."""
    return any(low <= stretch[0] and stretch[1] <= high for low, high in joined(taken))


def shared(one: Stretch, other: Stretch) -> Stretch | None:
    """What two stretches have in common, or None where they only touch."""
    low, high = max(one[0], other[0]), min(one[1], other[1])
    return (low, high) if low < high else None


def runs_of(items: Sequence[_Item], is_bad: Callable[[_Item], bool]) -> Iterator[list[_Item]]:
    """Neighbours that are all bad, run by run."""
    for bad, run in groupby(items, key=is_bad):
        if bad:
            yield list(run)
