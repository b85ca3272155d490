"""Staking lines out from a baseline: stations along it, offsets square to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot

from models.errors import CalculationInputError
from models.science.shapes.rings import FULL_TURN_UDEG, MICRODEGREES, PointNm
from models.science.shapes.rotated_frame import Frame


@dataclass(frozen=True, slots=True)
class StakedEnd:
    """An end of a line as it is staked.

    Attributes
    ----------
    station_nm : int
        Along the baseline from its zero. [nm]
    offset_nm : int
        Square to the baseline, on the side where the lines are. [nm]
    """

    station_nm: int
    offset_nm: int


@dataclass(frozen=True, slots=True)
class Baseline:
    """A straight line to lay a tape along; lines are staked square off it.

    Attributes
    ----------
    zero : PointNm
        Where its stations begin. [nm]
    end : PointNm
        Where it ends. [nm]
    bearing_udeg : int
        Bearing of the lines that are staked off it, square to it. [1e-6 degree]
    length_nm : int
        From zero to end. [nm]
    """

    zero: PointNm
    end: PointNm
    bearing_udeg: int
    length_nm: int


def bearing_of(start: PointNm, end: PointNm) -> int:
    """Bearing of a straight line.

    Parameters
    ----------
    start, end : PointNm
        Its ends. [nm]

    Returns
    -------
    bearing : int
        Clockwise from north, 0 to below 360 degrees. [1e-6 degree]

    Raises
    ------
    CalculationInputError
        If both ends are one point.

    Notes
    -----
    Exact on the quarters; elsewhere to the microdegree. Derived here.

    Examples
    --------
    By inspection: straight east.

    >>> bearing_of(PointNm(0, 0), PointNm(5, 0))
    90000000
    """
    east_nm, north_nm = end.x_nm - start.x_nm, end.y_nm - start.y_nm
    if not (east_nm or north_nm):
        raise CalculationInputError(
            what="the bearing of a line",
            why="both its ends are one point",
            accepted="Give two ends that lie apart",
        )
    return round(degrees(atan2(east_nm, north_nm)) * MICRODEGREES) % FULL_TURN_UDEG


def longest_bearing(lines: Sequence[tuple[PointNm, PointNm]]) -> int:
    """Bearing of the longest of some lines.

    Parameters
    ----------
    lines : sequence of pairs of PointNm
        Ends of every line, at least one. [nm]

    Returns
    -------
    bearing : int
        Clockwise from north, 0 to below 360 degrees. [1e-6 degree]

    Raises
    ------
    CalculationInputError
        If both ends of the longest are one point.

    Notes
    -----
    Of two as long the first counts; lengths are compared exactly. Derived here.

    Examples
    --------
    By inspection: the second, which runs east.

    >>> north, east = (PointNm(0, 0), PointNm(0, 4)), (PointNm(0, 0), PointNm(5, 0))
    >>> longest_bearing([north, east])
    90000000
    """
    return bearing_of(*max(lines, key=_square))


def _square(line: tuple[PointNm, PointNm]) -> int:
    """Square of a line's length, nm2."""
    start, end = line
    return (end.x_nm - start.x_nm) ** 2 + (end.y_nm - start.y_nm) ** 2


def baseline_of(lines: Sequence[tuple[PointNm, PointNm]], bearing_udeg: int) -> Baseline:
    """Baseline square to parallel lines, through the end that reaches furthest back.

    Parameters
    ----------
    lines : sequence of pairs of PointNm
        Ends of every line. [nm]
    bearing_udeg : int
        Their bearing. [1e-6 degree]

    Returns
    -------
    baseline : Baseline
        Zero at the leftmost line, looking along the lines; no offset is below zero. [nm]

    Raises
    ------
    CalculationInputError
        If there are no lines.

    Notes
    -----
    ::

              | | | | |
              | | | | |        lines
            0-+-+-+-+-+-end    baseline

    Derived here.

    Examples
    --------
    By hand: two lines north, 4 apart, the first beginning 1 further back.

    >>> baseline_of([(PointNm(2, 0), PointNm(2, 9)), (PointNm(6, 1), PointNm(6, 9))], 0).zero
    PointNm(x_nm=2, y_nm=0)
    """
    if not lines:
        raise CalculationInputError(
            what="a baseline", why="there is no line to stake", accepted="Lay lines out first"
        )
    frame = Frame(lines[0][0], bearing_udeg)
    places = [_in_frame(frame, point) for line in lines for point in line]
    left, right = (pick(across for across, _ in places) for pick in (min, max))
    back = min(along for _, along in places)
    zero, end = frame.point(left, back), frame.point(right, back)
    return Baseline(zero, end, bearing_udeg, round(right - left))


def station_offset(point: PointNm, baseline: Baseline) -> StakedEnd:
    """Station and offset of a point from a baseline.

    Parameters
    ----------
    point : PointNm
        The point. [nm]
    baseline : Baseline
        The line it is measured from. [nm]

    Returns
    -------
    place : StakedEnd
        To the nearest nanometre. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand, off a baseline that runs east.

    >>> station_offset(PointNm(7, 5), Baseline(PointNm(2, 0), PointNm(9, 0), 0, 7))
    StakedEnd(station_nm=5, offset_nm=5)
    """
    across, along = _in_frame(Frame(baseline.zero, baseline.bearing_udeg), point)
    return StakedEnd(round(across), round(along))


def diagonal_nm(station_nm: int, offset_nm: int) -> int:
    """Straight distance from the baseline's zero, to check a stake by a second tape.

    Parameters
    ----------
    station_nm, offset_nm : int
        Place of the stake. [nm]

    Returns
    -------
    distance : int
        To the nearest nanometre. [nm]

    Notes
    -----
    Pythagoras; a stake off its diagonal was not set square.

    Examples
    --------
    By hand, the 3-4-5 of every carpenter.

    >>> diagonal_nm(3, 4)
    5
    """
    return round(hypot(station_nm, offset_nm))


def _in_frame(frame: Frame, point: PointNm) -> tuple[float, float]:
    sine, cosine = frame.sine_cosine
    east_nm, north_nm = point.x_nm - frame.origin.x_nm, point.y_nm - frame.origin.y_nm
    return east_nm * cosine - north_nm * sine, east_nm * sine + north_nm * cosine
