"""How much of a planned line is cut, and what each cut added to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from models.units.spec import FOOT_NM

SHORT_NM = FOOT_NM
"""A line that lacks less than this in all is done: nobody goes back. Common practice, no source."""


class Interval(NamedTuple):
    """A stretch along a line, from its planned start, in nm."""

    from_nm: int
    to_nm: int

    @property
    def length_nm(self) -> int:
        """Length of the stretch, in nm."""
        return self.to_nm - self.from_nm


class CutShare(NamedTuple):
    """Lengths that one cut added to a line: new, again, beyond it, off the plan.

    Attributes
    ----------
    done : int
        Within the line, and not cut before. [nm]
    again : int
        Within the line, and cut before. [nm]
    beyond : int
        Before the line's start or beyond its end. [nm]
    off_plan : int
        In a line that no plan has. [nm]
    """

    done: int = 0
    again: int = 0
    beyond: int = 0
    off_plan: int = 0

    @property
    def length_nm(self) -> int:
        """Length of the cut itself, in nm."""
        return sum(self)


class Coverage(NamedTuple):
    """A line as it is cut.

    Attributes
    ----------
    cut : tuple of Interval
        What is cut of it, disjoint and in order. [nm]
    shares : tuple of CutShare
        What each cut added, in the order in which they were given. [nm]
    short, left : int
        What lacks at its ends and nobody cuts, and what is still to be cut. [nm]
    """

    cut: tuple[Interval, ...]
    shares: tuple[CutShare, ...]
    short: int
    left: int


def cover_line(planned_nm: int | None, cuts: Sequence[Interval]) -> Coverage:
    """Coverage of a line by its cuts, each counted once.

    Parameters
    ----------
    planned_nm : int or None
        Planned length of the line; None where no plan has it. [nm]
    cuts : sequence of Interval
        Its cuts, the earliest first. [nm]

    Returns
    -------
    coverage : Coverage
        With done + short + left = planned, and the shares of a cut adding up to it. [nm]

    Notes
    -----
    Derived here. Only on whom a stretch falls that two cuts share depends on their order.

    Examples
    --------
    By hand: 30 long; 0 to 20, then 15 to 32.

    >>> found = cover_line(30 * FOOT_NM, [Interval(0, 20 * FOOT_NM), Interval(15 * FOOT_NM,
    ...     32 * FOOT_NM)])
    >>> [tuple(nm // FOOT_NM for nm in share) for share in found.shares], found.left
    ([(20, 0, 0, 0), (10, 5, 2, 0)], 0)
    """
    if planned_nm is None:
        shares = tuple(CutShare(off_plan=one.length_nm) for one in cuts)
        return Coverage(join_intervals(cuts), shares, 0, 0)
    covered: tuple[Interval, ...] = ()
    found = []
    for one in cuts:
        inside = _within(one, planned_nm)
        before_nm = _length_nm(covered)
        covered = join_intervals((*covered, inside)) if inside.length_nm > 0 else covered
        inside_nm = max(inside.length_nm, 0)
        done = _length_nm(covered) - before_nm
        found.append(CutShare(done, inside_nm - done, one.length_nm - inside_nm))
    rest_nm = planned_nm - _length_nm(covered)
    is_short = len(covered) == 1 and rest_nm < SHORT_NM
    return Coverage(covered, tuple(found), rest_nm if is_short else 0, 0 if is_short else rest_nm)


def left_of(planned_nm: int, cut: Sequence[Interval]) -> tuple[Interval, ...]:
    """Stretches of a line that are not cut.

    Parameters
    ----------
    planned_nm : int
        Planned length of the line. [nm]
    cut : sequence of Interval
        What is cut of it, disjoint and in order, within the line. [nm]

    Returns
    -------
    left : tuple of Interval
        In order. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand:

    >>> left_of(30, [Interval(0, 10), Interval(15, 30)])
    (Interval(from_nm=10, to_nm=15),)
    """
    ends = [0, *(one.to_nm for one in cut)]
    begins = [*(one.from_nm for one in cut), planned_nm]
    return tuple(
        Interval(end, begin) for end, begin in zip(ends, begins, strict=True) if begin > end
    )


def join_intervals(intervals: Iterable[Interval]) -> tuple[Interval, ...]:
    """Stretches with those that touch or overlap made one, in order.

    Parameters
    ----------
    intervals : iterable of Interval
        In any order. [nm]

    Returns
    -------
    joined : tuple of Interval
        Disjoint. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand:

    >>> join_intervals([Interval(5, 9), Interval(0, 5), Interval(20, 30)])
    (Interval(from_nm=0, to_nm=9), Interval(from_nm=20, to_nm=30))
    """
    found: list[Interval] = []
    for one in sorted(intervals):
        if found and one.from_nm <= found[-1].to_nm:
            found[-1] = Interval(found[-1].from_nm, max(found[-1].to_nm, one.to_nm))
        else:
            found.append(one)
    return tuple(found)


def _within(one: Interval, planned_nm: int) -> Interval:
    """What of a stretch lies within a line."""
    return Interval(max(one.from_nm, 0), min(one.to_nm, planned_nm))


def _length_nm(intervals: Iterable[Interval]) -> int:
    """Length of disjoint stretches."""
    return sum(one.length_nm for one in intervals)
