"""Volume of the hole of a slit: sand due, spoil, and the length at full depth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import pi

from models.errors import CalculationInputError
from models.science.slits.floor import CutPiece, DepthReading, FloorPlan, FloorStretch, union_of

CUBIC_NM_PER_PL = 10**12
PI = Fraction(pi)
"""Pi as the nearest float, so that volumes less pipe stay fractions."""


@dataclass(frozen=True, slots=True)
class SlitSection:
    """Section of a slit.

    Attributes
    ----------
    width_nm : int or Fraction
        Width of the cut. [nm]
    depth_nm : int
        Design depth below finished turf, by which ramps are drawn. [nm]
    sod_nm : int
        Turf that goes back into the slit, 0 where none does. [nm]
    pipe_nm : int
        Outside diameter of the pipe on its floor, 0 for none. [nm]
    """

    width_nm: int | Fraction
    depth_nm: int
    sod_nm: int = 0
    pipe_nm: int = 0


@dataclass(frozen=True, slots=True)
class Hole:
    r"""The hole of all pieces of one line, in the order in which they were cut.

    .. math::
        V = \int \max(0, w (D(x) - s) - A) \, dx

    with w the width, D the depth of the deepest piece, s the sod, and A the section of the
    pipe at full depth, 0 in ramps.

    Attributes
    ----------
    section : SlitSection
        Its width, design depth, sod and pipe. [nm]
    pieces : tuple of CutPiece
        What was cut, in order. [nm]
    readings : tuple of DepthReading
        Depths measured on the line, in any order. [nm]

    Notes
    -----
    Depth is straight between readings and that of the nearest one beyond them; readings in
    ramps are left out, and a ramp is scaled by the depth at its foot. Pipe in ramps is left
    out, on the side of more sand. Square walls; straight stretches are exact, ramps in closed
    form to about a billionth. Derived here.

    Examples
    --------
    By hand: 1 x 9 in, 100 ft is 6.25 ft3; less 1-1/2 in of sod 5.208 ft3.

    >>> inch, foot = 25_400_000, 304_800_000
    >>> section = SlitSection(inch, 9 * inch, sod_nm=3 * inch // 2)
    >>> hole = Hole(section, (CutPiece(0, 100 * foot, 9 * inch),))
    >>> round(float(hole.volume_pl * CUBIC_NM_PER_PL / foot**3), 3)
    5.208
    """

    section: SlitSection
    pieces: tuple[CutPiece, ...]
    readings: tuple[DepthReading, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a slit without width or depth."""
        if min(self.section.width_nm, self.section.depth_nm) <= 0:
            raise CalculationInputError(
                what="the hole of a slit",
                why="its width or depth is not above zero",
                accepted="Give a width and a depth above zero",
            )

    @property
    def volume_pl(self) -> Fraction:
        """Volume of the pieces together, sod and pipe left out [pl]."""
        return sum(self.parts_pl, Fraction(0))

    @property
    def parts_pl(self) -> tuple[Fraction, ...]:
        """Volume that each piece adds to those before it; the whole is their sum [pl]."""
        return self.added_pl(range(len(self.pieces)))

    def added_pl(self, numbers: Iterable[int]) -> tuple[Fraction, ...]:
        """Volume that some of the pieces, by number from 0, each add to those before it [pl]."""
        plan = self._plan
        return tuple(self._addition_pl(plan, number) for number in numbers)

    def between_pl(self, from_nm: int, to_nm: int) -> Fraction:
        """Volume from one place of the line to another [pl]."""
        window = from_nm, to_nm
        return self._volume_pl(self._plan.stretches(self.pieces), window)

    @property
    def spoil_pl(self) -> Fraction:
        """Soil that comes out and is hauled, in the bank: all but the sod [pl]."""
        return replace(self, section=replace(self.section, pipe_nm=0)).volume_pl

    @property
    def full_depth(self) -> tuple[tuple[int, int], ...]:
        """Stretches without a ramp, which are at full depth [nm]."""
        pieces = (piece.full_depth(self.section.depth_nm) for piece in self.pieces)
        return tuple(union_of([piece for piece in pieces if piece is not None]))

    @property
    def full_depth_nm(self) -> int:
        """Length at full depth [nm]."""
        return sum(end - begin for begin, end in self.full_depth)

    def depth_at_nm(self, along_nm: int) -> float:
        """Depth of the floor at a place, 0 where nothing is cut [nm]."""
        for stretch in self._plan.stretches(self.pieces):
            if stretch.begin_nm <= along_nm <= stretch.end_nm:
                return max(0.0, stretch.floor.at(along_nm))
        return 0.0

    @property
    def _plan(self) -> FloorPlan:
        return FloorPlan.of(self.pieces, self.readings, self.section.depth_nm)

    def _addition_pl(self, plan: FloorPlan, number: int) -> Fraction:
        """Volume along a piece with it, less that without it; nothing else of the line changes."""
        piece = self.pieces[number]
        over = [
            one
            for one in self.pieces[:number]
            if one.from_nm < piece.to_nm and piece.from_nm < one.to_nm
        ]
        after = self._volume_pl(plan.stretches([*over, piece], within=piece))
        if not over:
            return after
        return max(Fraction(0), after - self._volume_pl(plan.stretches(over, within=piece)))

    def _volume_pl(
        self, stretches: list[FloorStretch], window: tuple[int, int] | None = None
    ) -> Fraction:
        """Volume of stretches, as wide as the slit."""
        width, sod = Fraction(self.section.width_nm), self.section.sod_nm
        pipe_nm = self.section.pipe_nm
        full = sod + PI * pipe_nm**2 / 4 / width if pipe_nm else sod
        area = sum((one.area_nm2(window, sod, full) for one in stretches), Fraction(0))
        return width * area / CUBIC_NM_PER_PL
