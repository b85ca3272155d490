"""Take-off of a collector along its profile: trench, gravel, fabric, wire, sand, sod."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from models.errors import CalculationInputError
from models.science.slits.hole import CUBIC_NM_PER_PL
from models.science.takeoff.items import Amount, Item, Kind, Size, TakeoffLine
from models.science.takeoff.slits import pipe_area, spoil_lines


@dataclass(frozen=True, slots=True)
class TrenchSection:
    """Ground and invert at one station.

    Attributes
    ----------
    station_nm : int
        Where. [nm]
    ground_nm : int, Fraction or None
        Finished ground; None where nobody has levelled it. [nm above datum]
    invert_nm : int or Fraction
        Invert of the pipe. [nm above datum]
    """

    station_nm: int
    ground_nm: Size | None
    invert_nm: Size


@dataclass(frozen=True, slots=True)
class CollectorWork:
    """A collector as it is to be built.

    Attributes
    ----------
    sections : tuple of TrenchSection
        In order of growing station, at least two. [nm]
    width_nm : int
        Width of the trench. [nm]
    bore_nm : int
        Inside diameter of the pipe. [nm]
    outside_nm : int
        Outside diameter of the pipe. [nm]
    bedding_nm : int
        Bedding under the pipe. [nm]
    surround_over_nm : int
        Surround above the top of the pipe. [nm]
    fabric_lap_nm : int
        Fabric turned up at each side. [nm]
    sod_nm : int
        Thickness of the sod. [nm]
    wire_slack : Fraction
        Wire more than the trench is long. [-]
    wire_tails_nm : int
        Wire left at both ends together. [nm]
    overbreak : Fraction
        What the trench is larger than meant. [-]
    swell : Fraction
        What spoil gains in volume when it is dug. [-]
    caps : int
        End caps. [-]
    """

    sections: tuple[TrenchSection, ...]
    width_nm: int
    bore_nm: int
    outside_nm: int
    bedding_nm: int
    surround_over_nm: int = 0
    fabric_lap_nm: int = 0
    sod_nm: int = 0
    wire_slack: Fraction = Fraction(0)
    wire_tails_nm: int = 0
    overbreak: Fraction = Fraction(0)
    swell: Fraction = Fraction(0)
    caps: int = 1


def trench_depths_nm(work: CollectorWork) -> list[Fraction]:
    """Depth of the trench at each section.

    Parameters
    ----------
    work : CollectorWork
        The collector. [nm]

    Returns
    -------
    depths : list of Fraction
        Ground less invert, plus the wall of the pipe and the bedding. [nm]

    Raises
    ------
    CalculationInputError
        If sections are fewer than two or out of order, a size makes no pipe in
        a trench, or a section is too shallow for what goes into it.

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: 500 deep to the invert, a wall of 5 and a bedding of 20.

    >>> ends = (TrenchSection(0, 500, 0), TrenchSection(9, 500, 100))
    >>> work = CollectorWork(ends, width_nm=200, bore_nm=100, outside_nm=110, bedding_nm=20)
    >>> [int(depth) for depth in trench_depths_nm(work)]
    [525, 425]
    """
    _refuse_what_cannot_be_built(work)
    under = Fraction(work.outside_nm - work.bore_nm, 2) + work.bedding_nm
    depths = [ground - one.invert_nm + under for one, ground in _levelled(work)]
    inside_nm = work.bedding_nm + work.outside_nm + work.surround_over_nm + work.sod_nm
    for place, depth in enumerate(depths, start=1):
        if depth < inside_nm:
            raise CalculationInputError(
                what="the take-off of a collector",
                why=f"at section {place} the trench is shallower than what goes into it",
                accepted="Lower the invert there, or plan less surround or sod",
            )
    return depths


def _refuse_what_cannot_be_built(work: CollectorWork) -> None:
    """Refuse stations out of order and sizes that don't go into each other."""
    stations = [section.station_nm for section in work.sections]
    if len(stations) < 2 or any(b <= a for a, b in pairwise(stations)):
        raise CalculationInputError(
            what="the take-off of a collector",
            why="it needs two sections at least, in order of growing station",
            accepted="Give ground and invert at both ends and where the ground bends",
        )
    if not 0 < work.bore_nm <= work.outside_nm <= work.width_nm:
        raise CalculationInputError(
            what="the take-off of a collector",
            why="the bore, the pipe and the trench don't go into each other in that order",
            accepted="Give the bore, the outside of the pipe, and a trench at least as wide",
        )


def _levelled(work: CollectorWork) -> list[tuple[TrenchSection, Size]]:
    """Sections with their ground, or a refusal where one has none."""
    levelled = [(one, one.ground_nm) for one in work.sections if one.ground_nm is not None]
    if len(levelled) < len(work.sections):
        raise CalculationInputError(
            what="the trench of a collector",
            why="a section of it has no level of the ground",
            accepted="Give finished ground along all of it, or take off what needs none",
        )
    return levelled


def average_end_area(
    work: CollectorWork, heights_nm: Sequence[Fraction], item: Item
) -> TakeoffLine:
    """Volume along a trench by the mean of the two end sections of each reach.

    Parameters
    ----------
    work : CollectorWork
        The collector. [nm]
    heights_nm : sequence of Fraction
        Height of what is measured, at each section. [nm]
    item : Item
        What is measured. [-]

    Returns
    -------
    line : TakeoffLine
        The volume, with each reach in its workings. [pl]

    Notes
    -----
    With one width throughout, and straight ground and pipe between sections,
    it is exact; with sloping walls it would be a little large.

    Examples
    --------
    By hand: 0.2 m x (0.5 + 0.7) / 2 m x 10 m = 1.2 m3.

    >>> ends = (TrenchSection(0, 10**9, 0), TrenchSection(10**10, 10**9, 0))
    >>> work = CollectorWork(ends, 2 * 10**8, 10**8, 10**8, 0)
    >>> heights = [Fraction(5 * 10**8), Fraction(7 * 10**8)]
    >>> int(average_end_area(work, heights, Item.TRENCH_CUT).amount.size)
    1200000000000000
    """
    width = Amount(work.width_nm, Kind.DEPTH)
    workings: list[str | Amount] = ["("]
    total = Fraction(0)
    for place, (one, other) in enumerate(pairwise(work.sections)):
        low, high = heights_nm[place], heights_nm[place + 1]
        reach = Amount(other.station_nm - one.station_nm, Kind.LENGTH)
        total += work.width_nm * (low + high) / 2 * reach.size
        workings += ["+"] if place else []
        workings += [width, "x (", Amount(low, Kind.DEPTH), "+", Amount(high, Kind.DEPTH)]
        workings += [") / 2 x", reach]
    workings += [") x (1 +", Amount(work.overbreak, Kind.SHARE), ")"]
    volume = Amount(total * (1 + work.overbreak) / CUBIC_NM_PER_PL, Kind.VOLUME)
    return TakeoffLine(item, volume, tuple(workings))


def collector_takeoff(work: CollectorWork) -> list[TakeoffLine]:
    """Take-off of a collector from its bedding to its sod.

    Parameters
    ----------
    work : CollectorWork
        The collector. [nm]

    Returns
    -------
    lines : list of TakeoffLine
        All may be added up with those of the slits. [base units]

    Notes
    -----
    Lengths are level, along the stations: at 1 % the pipe is 0.005 % longer.
    The trench is filled without a rest: bedding, surround, pipe, sand and sod
    make the volume cut. Fabric lies over the surround and is turned up by its
    lap at each side. Where a section has no ground, trench, spoil and sand are
    left out: what hangs on the length alone stands. Derived here.

    Examples
    --------
    By hand: 0.2 m x 0.1 m x 10 m of bedding.

    >>> ends = (TrenchSection(0, 10**9, 0), TrenchSection(10**10, 10**9, 0))
    >>> work = CollectorWork(ends, 2 * 10**8, 10**8, 10**8, 10**8)
    >>> [int(one.amount.size) for one in collector_takeoff(work) if one.item is Item.BEDDING]
    [200000000000000]
    """
    _refuse_what_cannot_be_built(work)
    length = Amount(work.sections[-1].station_nm - work.sections[0].station_nm, Kind.LENGTH)
    is_levelled = all(one.ground_nm is not None for one in work.sections)
    return [
        TakeoffLine(Item.COLLECTOR_LENGTH, length, ("last station less first",)),
        *(_earth(work) if is_levelled else []),
        *_gravel(work, length),
        TakeoffLine(Item.END_CAPS, Amount(work.caps, Kind.COUNT), ("as counted",)),
        TakeoffLine(Item.COLLECTOR_PIPE, length, ("the length of the collector",)),
        *_sheets_and_wire(work, length),
    ]


def _earth(work: CollectorWork) -> list[TakeoffLine]:
    """Trench, spoil and the sand on top."""
    depths_nm = trench_depths_nm(work)
    cut = average_end_area(work, depths_nm, Item.TRENCH_CUT)
    below_nm = work.bedding_nm + work.outside_nm + work.surround_over_nm + work.sod_nm
    fill_nm = [depth - below_nm for depth in depths_nm]
    sand = average_end_area(work, fill_nm, Item.COLLECTOR_SAND)
    return [cut, *spoil_lines(cut.amount, work.swell), sand]


def _gravel(work: CollectorWork, length: Amount) -> list[TakeoffLine]:
    """Bedding, and surround less the pipe in it."""
    width, bedding = Amount(work.width_nm, Kind.DEPTH), Amount(work.bedding_nm, Kind.DEPTH)
    height, pipe = work.outside_nm + work.surround_over_nm, pipe_area(work.outside_nm)
    grown = (length, "x (1 +", Amount(work.overbreak, Kind.SHARE), ")")
    run = length.size * (1 + work.overbreak) / CUBIC_NM_PER_PL
    under = Amount(work.width_nm * work.bedding_nm * run, Kind.VOLUME)
    around = Amount((work.width_nm * height - pipe.size) * run, Kind.VOLUME)
    tall = ("(", width, "x", Amount(height, Kind.DEPTH), "-", pipe, ") x")
    return [
        TakeoffLine(Item.BEDDING, under, (width, "x", bedding, "x", *grown)),
        TakeoffLine(Item.SURROUND, around, (*tall, *grown)),
    ]


def _sheets_and_wire(work: CollectorWork, length: Amount) -> list[TakeoffLine]:
    """Fabric, tracer wire and sod."""
    width, lap = Amount(work.width_nm, Kind.DEPTH), Amount(work.fabric_lap_nm, Kind.DEPTH)
    fabric = Amount((work.width_nm + 2 * work.fabric_lap_nm) * length.size, Kind.AREA)
    tails = Amount(work.wire_tails_nm, Kind.LENGTH)
    wire = Amount(length.size * (1 + work.wire_slack) + tails.size, Kind.LENGTH)
    slack = Amount(work.wire_slack, Kind.SHARE)
    sod = Amount(work.width_nm * length.size, Kind.AREA)
    return [
        TakeoffLine(Item.FABRIC, fabric, ("(", width, "+ 2 x", lap, ") x", length)),
        TakeoffLine(Item.WIRE, wire, (length, "x (1 +", slack, ") +", tails)),
        TakeoffLine(Item.SOD, sod, (width, "x", length)),
    ]
