"""Sand for slits: the volume cut, and its mass."""

from __future__ import annotations

from fractions import Fraction

from models.errors import CalculationInputError
from models.science.slits.floor import CutPiece
from models.science.slits.hole import PI, Hole, SlitSection
from models.units import PL_PER, UG_PER, MassUnit, VolumeUnit

LB_PER_FT3 = Fraction(UG_PER[MassUnit.LB], PL_PER[VolumeUnit.FT3])
"""One pound in a cubic foot [ug/pl], by the definitions of the pound and the foot."""

KG_PER_M3 = Fraction(1, 1_000_000)
"""One kilogram in a cubic metre [ug/pl]."""


def slit_volume_pl(width_nm: int, depth_nm: int, length_nm: int, pipe_nm: int = 0) -> int:
    """Sand a slit takes when it is full, in place.

    Parameters
    ----------
    width_nm : int
        Width of the slit. [nm]
    depth_nm : int
        Depth of the slit. [nm]
    length_nm : int
        Length of the slit. [nm]
    pipe_nm : int
        Outside diameter of a pipe on its floor, 0 for none. [nm]

    Returns
    -------
    volume : int
        Rounded to whole picolitres, ties to even. [pl]

    Raises
    ------
    CalculationInputError
        If nothing is left of the section.

    Notes
    -----
    Square walls; the strip of turf is not taken off. Derived here.

    Examples
    --------
    By hand: 100 mm x 200 mm x 1 m = 0.02 m3.

    >>> slit_volume_pl(100_000_000, 200_000_000, 10**9)
    20000000000000
    """
    if width_nm * depth_nm <= PI * pipe_nm**2 / 4:
        raise CalculationInputError(
            what="the sand of a slit",
            why="its width times its depth leaves no room for sand",
            accepted="Give a width and a depth above zero and a pipe that fits in them",
        )
    section = SlitSection(width_nm, depth_nm, pipe_nm=pipe_nm)
    return round(Hole(section, (CutPiece(0, length_nm, depth_nm),)).volume_pl)


def sand_mass_ug(volume_pl: int, density: Fraction) -> int:
    """Mass of a volume of sand.

    Parameters
    ----------
    volume_pl : int
        Volume in the state the density was weighed in. [pl]
    density : Fraction
        Bulk density. [ug/pl]

    Returns
    -------
    mass : int
        Rounded to whole micrograms, ties to even. [ug]

    Notes
    -----
    Published bulk densities differ by a third: weigh a box.

    Examples
    --------
    By hand: 1 m3 at 1600 kg/m3 is 1600 kg.

    >>> sand_mass_ug(10**15, 1600 * KG_PER_M3)
    1600000000000
    """
    return round(volume_pl * density)
