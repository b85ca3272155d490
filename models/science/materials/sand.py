"""Mass of sand from its volume and bulk density."""

from __future__ import annotations

from fractions import Fraction

from models.units import PL_PER, UG_PER, MassUnit, VolumeUnit

LB_PER_FT3 = Fraction(UG_PER[MassUnit.LB], PL_PER[VolumeUnit.FT3])
"""One pound in a cubic foot [ug/pl], by the definitions of the pound and the foot."""

KG_PER_M3 = Fraction(1, 1_000_000)
"""One kilogram in a cubic metre [ug/pl]."""


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
