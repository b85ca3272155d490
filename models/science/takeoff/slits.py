"""Take-off of the slits of one surface: turf, cut, sand, spoil, pipe and fittings."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.errors import CalculationInputError
from models.science.slits.hole import CUBIC_NM_PER_PL, PI
from models.science.takeoff.items import Amount, Item, Kind, TakeoffLine, Workings


@dataclass(frozen=True, slots=True)
class SlitWork:
    """The slits of one use on one surface.

    Attributes
    ----------
    runs_nm : tuple of int
        Length of each line. [nm]
    width_nm : int
        Width of the cut. [nm]
    depth_nm : int
        Depth of the cut below finished turf. [nm]
    pipe_outside_nm : int
        Outside diameter of the pipe, 0 where there is none. [nm]
    strip_nm : int
        Width of turf lifted and put back, 0 where none is. [nm]
    overbreak : Fraction
        What the cut is larger than meant. [-]
    swell : Fraction
        What spoil gains in volume when it is dug. [-]
    caps : int
        End caps. [-]
    tees : int
        Tees to the collector. [-]
    gaps_nm : tuple of int
        Pipe from the end of each line to the collector; empty where none is
        needed. [nm]
    has_pipe : bool
        Whether a pipe of unknown size lies in them; one of known size does. [-]
    """

    runs_nm: tuple[int, ...]
    width_nm: int
    depth_nm: int
    pipe_outside_nm: int = 0
    strip_nm: int = 0
    overbreak: Fraction = Fraction(0)
    swell: Fraction = Fraction(0)
    caps: int = 0
    tees: int = 0
    gaps_nm: tuple[int, ...] = ()
    has_pipe: bool = False

    @property
    def length_nm(self) -> int:
        """Length of all lines together [nm]."""
        return sum(self.runs_nm)

    @property
    def is_piped(self) -> bool:
        """Whether a pipe lies in them."""
        return self.has_pipe or self.pipe_outside_nm > 0

    @property
    def pipe_runs_nm(self) -> tuple[int, ...]:
        """Pipe of each line as it is laid, with what leads on to the collector [nm]."""
        if not self.is_piped:
            return ()
        gaps_nm = self.gaps_nm or (0,) * len(self.runs_nm)
        return tuple(run + gap for run, gap in zip(self.runs_nm, gaps_nm, strict=True))


def _refuse_what_cannot_be_cut(work: SlitWork) -> None:
    """Refuse sizes below zero and a pipe that doesn't fit its slit."""
    figures: list[int | Fraction] = [work.overbreak, work.swell, *work.runs_nm, *work.gaps_nm]
    figures += [work.strip_nm, work.pipe_outside_nm, work.caps, work.tees]
    if any(figure < 0 for figure in figures) or min(work.width_nm, work.depth_nm) <= 0:
        raise CalculationInputError(
            what="the take-off of slits",
            why="a width or depth is not above zero, or another figure is below it",
            accepted="Give the width and depth of the cut, and nothing negative",
        )
    if work.gaps_nm and len(work.gaps_nm) != len(work.runs_nm):
        raise CalculationInputError(
            what="the take-off of slits",
            why="the lengths of pipe to the collector are not one for each line",
            accepted="Give one for each line, nothing where the line reaches it",
        )
    if work.pipe_outside_nm > min(work.width_nm, work.depth_nm):
        raise CalculationInputError(
            what="the take-off of slits",
            why="the pipe is larger than the slit it lies in",
            accepted="Give the outside diameter of the pipe, no larger than the slit",
        )


def pipe_area(outside_nm: int) -> Amount:
    """Section that a pipe takes of a slit or a trench.

    Parameters
    ----------
    outside_nm : int
        Outside diameter. [nm]

    Returns
    -------
    area : Amount
        A circle; corrugations are taken as filled. [nm2]

    Notes
    -----
    Pi is the nearest float, taken as a fraction from there on. Derived here.

    Examples
    --------
    By hand: 3.14159 x 10^2 / 4.

    >>> round(float(pipe_area(10).size), 4)
    78.5398
    """
    return Amount(PI * outside_nm**2 / 4, Kind.AREA)


def slit_takeoff(work: SlitWork) -> list[TakeoffLine]:
    """Take-off of the slits of one use on one surface.

    Parameters
    ----------
    work : SlitWork
        The slits. [nm]

    Returns
    -------
    lines : list of TakeoffLine
        Length, turf strip, cut, spoil in the bank and loose, sand in place,
        and for piped slits pipe, caps and tees; all may be added up. [base units]

    Notes
    -----
    Sand = (width x depth - pipe) x length x (1 + overbreak). Square walls; the
    depth counts from finished turf, so the strip put back stands for sand that
    is not needed, on the safe side. Where slits cross, both are counted: 2 %
    for 1 in every 4 ft. Derived here.

    Examples
    --------
    By hand: 0.1 m x 0.2 m x 10 m = 0.2 m3, with a tenth of overbreak 0.22 m3.

    >>> work = SlitWork((10**10,), 10**8, 2 * 10**8, overbreak=Fraction(1, 10))
    >>> [(line.item.name, int(line.amount.size)) for line in slit_takeoff(work)][1:2]
    [('SLIT_CUT', 220000000000000)]
    """
    _refuse_what_cannot_be_cut(work)
    item = Item.PIPED_SLIT_LENGTH if work.is_piped else Item.SAND_SLIT_LENGTH
    length = Amount(work.length_nm, Kind.LENGTH)
    count = Amount(len(work.runs_nm), Kind.COUNT)
    by = "line by its planned length" if count.size == 1 else "lines by their planned lengths"
    lines = [TakeoffLine(item, length, (count, by))]
    if work.strip_nm:
        strip = Amount(work.length_nm * work.strip_nm, Kind.AREA)
        workings = (length, "x", Amount(work.strip_nm, Kind.DEPTH))
        lines.append(TakeoffLine(Item.TURF_STRIP, strip, workings))
    return [*lines, *_earth(work, length), *(_pipe(work, length) if work.is_piped else [])]


def _earth(work: SlitWork, length: Amount) -> list[TakeoffLine]:
    """Cut, spoil and sand."""
    width, depth = Amount(work.width_nm, Kind.DEPTH), Amount(work.depth_nm, Kind.DEPTH)
    more = 1 + work.overbreak
    grown = (length, "x (1 +", Amount(work.overbreak, Kind.SHARE), ")")
    section_nm2 = work.width_nm * work.depth_nm
    cut = Amount(section_nm2 * work.length_nm * more / CUBIC_NM_PER_PL, Kind.VOLUME)
    cut_workings: Workings = (width, "x", depth, "x", *grown)
    sand_nm2, sand_workings = Fraction(section_nm2), cut_workings
    if work.pipe_outside_nm:
        pipe = pipe_area(work.pipe_outside_nm)
        sand_nm2 -= pipe.size
        sand_workings = ("(", width, "x", depth, "-", pipe, ") x", *grown)
    sand = Amount(sand_nm2 * work.length_nm * more / CUBIC_NM_PER_PL, Kind.VOLUME)
    return [
        TakeoffLine(Item.SLIT_CUT, cut, cut_workings),
        *spoil_lines(cut, work.swell),
        TakeoffLine(Item.SLIT_SAND, sand, sand_workings),
    ]


def spoil_lines(cut: Amount, swell: Fraction) -> list[TakeoffLine]:
    """Spoil of a cut, in the bank and loose.

    Parameters
    ----------
    cut : Amount
        Volume cut. [pl]
    swell : Fraction
        What it gains in volume when it is dug. [-]

    Returns
    -------
    lines : list of TakeoffLine
        In the bank, and loose as it is hauled. [pl]

    Notes
    -----
    Swell of common earth: 11 %, from memory of FM 5-434; measure a load.

    Examples
    --------
    By hand: 100 x 1.25.

    >>> [int(line.amount.size) for line in spoil_lines(Amount(100, Kind.VOLUME), Fraction(1, 4))]
    [100, 125]
    """
    loose = Amount(cut.size * (1 + swell), Kind.VOLUME)
    workings = (cut, "x (1 +", Amount(swell, Kind.SHARE), ")")
    return [
        TakeoffLine(Item.SPOIL_BANK, cut, ("all that is cut",)),
        TakeoffLine(Item.SPOIL_LOOSE, loose, workings),
    ]


def _pipe(work: SlitWork, length: Amount) -> list[TakeoffLine]:
    """Pipe to lay and its fittings."""
    gaps = Amount(sum(work.gaps_nm), Kind.LENGTH)
    pipe = TakeoffLine(Item.SLIT_PIPE, length, ("the length of the piped slits",))
    if gaps.size:
        laid = Amount(length.size + gaps.size, Kind.LENGTH)
        workings = (length, "+", gaps, "on to the collector")
        pipe = TakeoffLine(Item.SLIT_PIPE, laid, workings)
    return [
        pipe,
        TakeoffLine(Item.END_CAPS, Amount(work.caps, Kind.COUNT), ("as counted",)),
        TakeoffLine(Item.TEES, Amount(work.tees, Kind.COUNT), ("as counted",)),
    ]
