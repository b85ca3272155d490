"""Sand for slits: volume cut, mass, and what was placed against what was due."""

from __future__ import annotations

from fractions import Fraction
from math import pi

from models.errors import CalculationInputError

CUBIC_NM_PER_PL = 10**12
PI = Fraction(pi)
"""Pi as the nearest float, so that volumes less pipe stay fractions."""

LB_PER_FT3 = Fraction(453_592_370, 28_316_846_592_000)
"""One pound in a cubic foot [ug/pl], by the definitions of the pound and the foot."""

KG_PER_M3 = Fraction(1, 1_000_000)
"""One kilogram in a cubic metre [ug/pl]."""

GRAIN_DENSITY = 2650 * KG_PER_M3
"""Density of quartz grains [ug/pl]."""


def _area_nm2(width_nm: int, depth_nm: int, pipe_nm: int) -> Fraction:
    """Section of a slit less the pipe on its floor [nm2]."""
    area = width_nm * depth_nm - PI * pipe_nm**2 / 4
    if area <= 0:
        raise CalculationInputError(
            what="the sand of a slit",
            why="its width times its depth leaves no room for sand",
            accepted="Give a width and a depth above zero and a pipe that fits in them",
        )
    return area


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
    return round(_area_nm2(width_nm, depth_nm, pipe_nm) * length_nm / CUBIC_NM_PER_PL)


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
    Published bulk densities differ by a third: weigh a box (``bulk_density``).

    Examples
    --------
    By hand: 1 m3 at 1600 kg/m3 is 1600 kg.

    >>> sand_mass_ug(10**15, 1600 * KG_PER_M3)
    1600000000000
    """
    return round(volume_pl * density)


def bulk_density(full_ug: int, empty_ug: int, box_pl: int) -> Fraction:
    """Bulk density from a box weighed full and empty.

    Parameters
    ----------
    full_ug : int
        Box with sand struck level. [ug]
    empty_ug : int
        Box alone. [ug]
    box_pl : int
        What the box holds. [pl]

    Returns
    -------
    density : Fraction
        Mass for each volume; divide by LB_PER_FT3 or KG_PER_M3 to show. [ug/pl]

    Raises
    ------
    CalculationInputError
        If the box holds nothing or weighs no less empty than full.

    Notes
    -----
    Fill the box as the slit is filled: loose and dry, or it will not compare.

    Examples
    --------
    By hand: 18 kg less 2 kg in 10 litres is 1600 kg/m3.

    >>> bulk_density(18 * 10**9, 2 * 10**9, 10**13) / KG_PER_M3
    Fraction(1600, 1)
    """
    if box_pl <= 0 or full_ug <= empty_ug:
        raise CalculationInputError(
            what="a bulk density",
            why="the box holds nothing, or is no heavier full than empty",
            accepted="Give the box's volume and both weights",
        )
    return Fraction(full_ug - empty_ug, box_pl)


def density_from_porosity(porosity: Fraction) -> Fraction:
    """Bulk density of dry sand from its total porosity.

    Parameters
    ----------
    porosity : Fraction
        Share of voids, 0 to 1. [-]

    Returns
    -------
    density : Fraction
        2.65 g/cm3 times the share of grains. [ug/pl]

    Notes
    -----
    For quartz. Source of 2.65: soilinfo.psu.edu.

    Examples
    --------
    By hand: 2650 x 0.6.

    >>> density_from_porosity(Fraction(2, 5)) / KG_PER_M3
    Fraction(1590, 1)
    """
    return GRAIN_DENSITY * (1 - porosity)


def placed_ratio(placed_ug: int, expected_ug: int) -> Fraction:
    """Sand placed for each of sand due.

    Parameters
    ----------
    placed_ug : int
        What went in by the loads. [ug]
    expected_ug : int
        What the slit as cut takes. [ug]

    Returns
    -------
    ratio : Fraction
        Below 1 points to voids or bridging, above 1 to a wide or deep cut. [-]

    Raises
    ------
    CalculationInputError
        If nothing was due.

    Notes
    -----
    Judge it with ``verdict.judge``; its limits are the job's own.

    Examples
    --------
    By hand: 9 for 10.

    >>> placed_ratio(9, 10)
    Fraction(9, 10)
    """
    if expected_ug <= 0:
        raise CalculationInputError(
            what="sand placed against sand due",
            why="no sand was due",
            accepted="Give a pass with a length, a width and a depth",
        )
    return Fraction(placed_ug, expected_ug)


def length_for_mass_nm(
    mass_ug: int, density: Fraction, width_nm: int, depth_nm: int, pipe_nm: int = 0
) -> int:
    """Length of slit that a mass of sand fills.

    Parameters
    ----------
    mass_ug : int
        Mass of sand. [ug]
    density : Fraction
        Bulk density in place. [ug/pl]
    width_nm : int
        Width of the slit. [nm]
    depth_nm : int
        Depth of the slit. [nm]
    pipe_nm : int
        Outside diameter of a pipe on its floor, 0 for none. [nm]

    Returns
    -------
    length : int
        Rounded to whole nanometres, ties to even. [nm]

    Raises
    ------
    CalculationInputError
        If nothing is left of the section, or the density is not above zero.

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: 1600 kg at 1600 kg/m3 is 1 m3; over 0.1 m x 0.2 m that is 50 m.

    >>> length_for_mass_nm(1600 * 10**9, 1600 * KG_PER_M3, 10**8, 2 * 10**8)
    50000000000
    """
    if density <= 0:
        raise CalculationInputError(
            what="the length a load fills",
            why="the bulk density is not above zero",
            accepted="Weigh a box of the sand",
        )
    return round(mass_ug / density * CUBIC_NM_PER_PL / _area_nm2(width_nm, depth_nm, pipe_nm))
