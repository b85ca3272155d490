"""Passes in the order they are driven, the lines of each leg, and the turns on the headland."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise
from math import acos, pi

from models.errors import CalculationInputError
from models.science.layout.interleave import Interleave, LegPlace, Machine, interleave
from models.science.layout.layout_types import LaidSegment, Layout
from models.science.shapes.rings import PointNm


@dataclass(frozen=True, slots=True)
class LegCut:
    """Cut of one leg on one pass.

    Attributes
    ----------
    leg : int
        Which leg, from 1 at the left looking along the bearing. [-]
    number : int
        Line that it cuts. [-]
    line_ids : tuple of str
        Pieces, in the order they are driven. [-]
    length_nm : int
        Length of the pieces. [nm]
    stretches : tuple of (int, int)
        Where each piece begins and ends along the drive as it is driven. [nm]
    """

    leg: int
    number: int
    line_ids: tuple[str, ...]
    length_nm: int
    stretches: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedPass:
    """A drive of the machine over its lines.

    Attributes
    ----------
    number : int
        Order of driving, from 1. [-]
    block, shift : int
        Place in the interleave, both from 1. [-]
    is_along : bool
        Driven along the bearing, or else against it. [-]
    legs : tuple of LegCut
        Legs that cut; the others are lifted. [nm]
    start, end : PointNm
        Middle of the machine where cutting begins and ends. [nm]
    driven_nm : int
        From start to end. [nm]
    across_nm, from_nm, to_nm : int
        The same in the frame of the layout, from_nm below to_nm. [nm]
    """

    number: int
    block: int
    shift: int
    is_along: bool
    legs: tuple[LegCut, ...]
    start: PointNm
    end: PointNm
    driven_nm: int
    across_nm: int
    from_nm: int
    to_nm: int

    @property
    def cut_nm(self) -> int:
        """Length cut by all its legs, in nm."""
        return sum(leg.length_nm for leg in self.legs)

    @property
    def lifts(self) -> int:
        """How many times a leg comes up within its line, over a gap."""
        return sum(len(leg.line_ids) - 1 for leg in self.legs)


@dataclass(frozen=True, slots=True)
class HeadlandTurn:
    """The way from the end of one pass to the beginning of the next.

    Attributes
    ----------
    after : int
        Number of the pass that it follows. [-]
    shift_nm : int
        How far the machine moves across. [nm]
    along_nm : int
        How much farther out one of the two ends is. [nm]
    length_nm : int
        Driven off the lines. [nm]
    """

    after: int
    shift_nm: int
    along_nm: int
    length_nm: int


@dataclass(frozen=True, slots=True)
class Drive:
    """A whole surface as it is driven.

    Attributes
    ----------
    passes : tuple of PlannedPass
        In order. [nm]
    turns : tuple of HeadlandTurn
        One between every two passes. [nm]
    """

    passes: tuple[PlannedPass, ...]
    turns: tuple[HeadlandTurn, ...]

    @property
    def cut_nm(self) -> int:
        """Length cut, in nm."""
        return sum(one.cut_nm for one in self.passes)

    @property
    def driven_nm(self) -> int:
        """Length driven on the passes, in nm."""
        return sum(one.driven_nm for one in self.passes)

    @property
    def headland_nm(self) -> int:
        """Length driven in turns, in nm."""
        return sum(turn.length_nm for turn in self.turns)


def turn_length_nm(shift_nm: int, radius_nm: int) -> int:
    r"""Shortest forward turn onto a parallel pass in the opposite direction.

    With room for it, two quarters and a straight; else a loop that swings out first:

    .. math::
        L = \pi r + w - 2 r \quad (w \ge 2 r), \qquad
        L = r (\pi + 4 \arccos \frac{w + 2 r}{4 r}) \quad (w < 2 r)

    Parameters
    ----------
    shift_nm : int
        w, from one pass to the next. [nm]
    radius_nm : int
        r, tightest circle of the middle of the machine; 0 turns on the spot. [nm]

    Returns
    -------
    length_nm : int
        Length of the path. [nm]

    Raises
    ------
    CalculationInputError
        If either is below zero.

    Notes
    -----
    Derived here from three touching circles; both give pi r at w = 2 r. A machine that
    backs up can do with less.

    Examples
    --------
    By hand: w = 0 is a loop of pi + 4 pi / 3 radians, 7.330 m at a radius of 1 m.

    >>> turn_length_nm(0, 10**9), turn_length_nm(2 * 10**9, 10**9)
    (7330382858, 3141592654)
    """
    if shift_nm < 0 or radius_nm < 0:
        raise CalculationInputError(
            what="a turn",
            why=f"a shift of {shift_nm} nm and a radius of {radius_nm} nm were given",
            accepted="Give zero or more",
        )
    if shift_nm >= 2 * radius_nm:
        return round(pi * radius_nm) + shift_nm - 2 * radius_nm
    return round(radius_nm * (pi + 4 * acos((shift_nm + 2 * radius_nm) / (4 * radius_nm))))


def plan_drive(layout: Layout, machine: Machine) -> Drive:
    """Passes over a layout in driving order, each driven against the one before.

    Parameters
    ----------
    layout : Layout
        The lines. [nm]
    machine : Machine
        Legs, their spacing and the turning radius. [nm]

    Returns
    -------
    drive : Drive
        Passes and the turns between them. [nm]

    Raises
    ------
    CalculationInputError
        If a figure of the machine is out of range.
    InterleaveError
        If the legs don't fit the spacing of the lines.

    Notes
    -----
    Blocks go from left to right, shifts within a block likewise, as crews work. A pass
    without a line is left out. Legs beyond the last line stay lifted. The machine drives
    straight on over gaps; a turn first drives out to the farther of the two ends. Derived
    here.

    Examples
    --------
    By hand: 45 lines by two legs at three spacings: 7 blocks of 6 lines and 3 lines more,
    8 x 3 passes.

    >>> from models.science.layout.cuttable_ground import Ground
    >>> from models.science.layout.layout_types import LinePattern
    >>> from models.science.layout.layout import lay_lines
    >>> from models.science.shapes.offsets import rectangle
    >>> field = Ground((rectangle(60 * 304_800_000, 100 * 304_800_000),))
    >>> drive = plan_drive(lay_lines(field, LinePattern(406_400_000)), Machine(2, 1_219_200_000))
    >>> len(drive.passes), [leg.number for leg in drive.passes[1].legs]
    (24, [2, 5])
    """
    pattern = interleave(machine, layout.pattern.spacing_nm)
    pieces: defaultdict[int, list[LaidSegment]] = defaultdict(list)
    for segment in layout.segments:
        pieces[segment.number].append(segment)
    passes: list[PlannedPass] = []
    blocks = -(-layout.line_count // (pattern.legs * pattern.shifts))
    for block in range(blocks):
        for shift in range(pattern.shifts):
            numbers = [
                pattern.line_at(LegPlace(block, shift, leg)) + 1 for leg in range(pattern.legs)
            ]
            if any(number in pieces for number in numbers):
                cuts = [pieces.get(number, []) for number in numbers]
                passes.append(_pass(layout, pattern, len(passes) + 1, (block, shift), cuts))
    turns = [_turn(before, after, machine) for before, after in pairwise(passes)]
    return Drive(tuple(passes), tuple(turns))


def _pass(
    layout: Layout,
    pattern: Interleave,
    number: int,
    place: tuple[int, int],
    cuts: list[list[LaidSegment]],
) -> PlannedPass:
    """One pass, from the pieces that each of its legs meets."""
    is_along = number % 2 == 1
    block, shift = place
    first = layout.across_nm(pattern.line_at(LegPlace(block, shift, 0)) + 1)
    legs_nm = (pattern.legs - 1) * pattern.shifts * layout.pattern.spacing_nm
    across_nm = first + legs_nm // 2
    from_nm = min(segment.from_nm for pieces in cuts for segment in pieces)
    to_nm = max(segment.to_nm for pieces in cuts for segment in pieces)
    low, high = (layout.frame.point(across_nm, end) for end in (from_nm, to_nm))
    legs = tuple(
        LegCut(
            leg,
            pieces[0].number,
            tuple(piece.line_id for piece in pieces[:: 1 if is_along else -1]),
            sum(piece.length_nm for piece in pieces),
            tuple(
                (piece.from_nm - from_nm, piece.to_nm - from_nm)
                if is_along
                else (to_nm - piece.to_nm, to_nm - piece.from_nm)
                for piece in pieces[:: 1 if is_along else -1]
            ),
        )
        for leg, pieces in enumerate(cuts, start=1)
        if pieces
    )
    return PlannedPass(
        number=number,
        block=block + 1,
        shift=shift + 1,
        is_along=is_along,
        legs=legs,
        start=low if is_along else high,
        end=high if is_along else low,
        driven_nm=to_nm - from_nm,
        across_nm=across_nm,
        from_nm=from_nm,
        to_nm=to_nm,
    )


def _turn(before: PlannedPass, after: PlannedPass, machine: Machine) -> HeadlandTurn:
    """The turn from one pass onto the next, on the side where the first ends."""
    shift_nm = abs(after.across_nm - before.across_nm)
    if before.is_along:
        along_nm = abs(after.to_nm - before.to_nm)
    else:
        along_nm = abs(after.from_nm - before.from_nm)
    length_nm = along_nm + turn_length_nm(shift_nm, machine.turning_radius_nm)
    return HeadlandTurn(before.number, shift_nm, along_nm, length_nm)
