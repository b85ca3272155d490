"""Interleave: how a machine of several legs leaves lines of one spacing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple, NoReturn

from models.counted import CountedNoun
from models.errors import CalculationInputError, InterleaveError
from models.science.shapes.rings import show_both
from models.units import LengthStyle, show_length


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine that cuts slits, with its legs.

    Attributes
    ----------
    legs : int
        Cutting blades side by side. [-]
    leg_spacing_nm : int
        From one leg to the next; means nothing for one leg. [nm]
    turning_radius_nm : int
        Tightest circle of its middle; 0 where it turns on the spot. [nm]
    """

    legs: int = 1
    leg_spacing_nm: int = 0
    turning_radius_nm: int = 0


class LegPlace(NamedTuple):
    """Place of a line in the interleave: block, shift and leg, all from 0."""

    block: int
    shift: int
    leg: int


@dataclass(frozen=True, slots=True)
class Interleave:
    """The pattern in which a machine's legs make an unbroken run of lines.

    Attributes
    ----------
    legs : int
        n, legs of the machine. [-]
    shifts : int
        m, passes in a block: leg spacing over line spacing. [-]
    """

    legs: int
    shifts: int

    def place_of(self, line: int) -> LegPlace:
        """Block, shift and leg of a line counted from 0."""
        block, rest = divmod(line, self.legs * self.shifts)
        leg, shift = divmod(rest, self.shifts)
        return LegPlace(block, shift, leg)

    def line_at(self, place: LegPlace) -> int:
        """Line, counted from 0, that a leg cuts."""
        return place.block * self.legs * self.shifts + place.leg * self.shifts + place.shift


def interleave(machine: Machine, spacing_nm: int) -> Interleave:
    r"""The interleave by which a machine cuts lines of a spacing.

    With :math:`m = D / s` whole, leg i on pass j of block b cuts at

    .. math::
        b n D + j s + i D

    so that m passes leave n m lines, s apart, and the machine jumps n D on.

    Parameters
    ----------
    machine : Machine
        Its legs and their spacing D. [nm]
    spacing_nm : int
        Line spacing s. [nm]

    Returns
    -------
    interleave : Interleave
        Legs n and shifts m. [-]

    Raises
    ------
    CalculationInputError
        If a figure is not above zero.
    InterleaveError
        If D / s is not whole; offers the nearest spacings that work, also on its context.

    Notes
    -----
    Compared exactly in nanometres. A single leg serves every spacing (m = 1). Derived here.

    Examples
    --------
    By hand: two legs 48 in apart at 16 in make three passes of a block.

    >>> interleave(Machine(2, 1_219_200_000), 406_400_000)
    Interleave(legs=2, shifts=3)
    """
    if machine.legs < 1 or spacing_nm < 1 or (machine.legs > 1 and machine.leg_spacing_nm < 1):
        raise CalculationInputError(
            what="the interleave",
            why=f"{CountedNoun(machine.legs):leg|legs} {show_both(machine.leg_spacing_nm)} apart "
            f"were given for lines {show_both(spacing_nm)} apart",
            accepted="Give one leg or more, and spacings above zero",
        )
    if machine.legs == 1:
        return Interleave(1, 1)
    shifts, rest_nm = divmod(machine.leg_spacing_nm, spacing_nm)
    if rest_nm:
        _refuse_gaps(machine.leg_spacing_nm, spacing_nm)
    return Interleave(machine.legs, shifts)


def _refuse_gaps(leg_spacing_nm: int, spacing_nm: int) -> NoReturn:
    """Refuse legs that leave gaps, and offer the nearest spacings that don't."""
    below, rest_nm = divmod(leg_spacing_nm, spacing_nm)
    shifts = below if below and 2 * rest_nm < spacing_nm else below + 1
    near_leg_nm = shifts * spacing_nm
    near_spacing_nm = _nearest_divisor(leg_spacing_nm, spacing_nm)
    times = Fraction(leg_spacing_nm, spacing_nm)
    raise InterleaveError(
        spacing=_show(spacing_nm),
        leg_spacing=_show(leg_spacing_nm),
        times=f"{float(times):.3f}",
        offer=f"Lines {_show(near_spacing_nm)} apart, or legs {_show(near_leg_nm)} "
        "apart, would work",
        nearest_spacing_nm=near_spacing_nm,
        nearest_leg_spacing_nm=near_leg_nm,
    )


def _show(length_nm: int) -> str:
    """A spacing as it would be typed: inches to the eighth, and millimetres to the tenth."""
    inches = show_length(length_nm, LengthStyle.IN_8, mark=True)
    return f"{inches} ({show_length(length_nm, LengthStyle.MM_10, mark=True)})"


def _nearest_divisor(whole_nm: int, wanted_nm: int) -> int:
    """The spacing nearest to the wanted one that goes into a leg spacing a whole number of times.

    Spacings are tried from the wanted one outwards; of two as near, the closer lines win.
    """
    below = whole_nm // wanted_nm
    fewer = next((m for m in range(below, 0, -1) if whole_nm % m == 0), None)
    most = 4 * below + 64  # closer than that is no help, and a prime has no end
    more = next((m for m in range(below + 1, most) if whole_nm % m == 0), None)
    spacings = [whole_nm // m for m in (fewer, more) if m]
    return min(spacings, key=lambda nm: (abs(nm - wanted_nm), nm))
