"""Gates of the water on its way from the surface to the outlet, three, in one unit.

Water has to get into the sand slits, along a slit to the nearest piped slit, and
off through the piped slits and the collector. Each gate is a depth of water an
hour over the whole surface; the narrowest governs. All of it is an estimate, and
every function that shows it should say so: ESTIMATE holds the words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from models.errors import CalculationInputError
from models.science.water.manning import NM_PER_M

ESTIMATE = "An estimate, not a design: the design of drainage belongs to a licensed engineer."

_MM_PER_H = 1000 * 3600
"""Millimetres an hour in one metre a second."""


class Gate(StrEnum):
    """Gates where water may be held up, in the order it passes."""

    INTAKE = "what the slits let in"
    CARRY = "what a slit carries to the nearest piped slit"
    PIPE = "what a piped slit carries"
    COLLECTOR = "what the collector carries"


@dataclass(frozen=True, slots=True)
class SlitGrid:
    """Sand slits crossed by piped slits.

    Attributes
    ----------
    width_nm : int
        Width of a sand slit. [nm]
    depth_nm : int
        Depth of a sand slit, the head that drives the flow along it. [nm]
    spacing_nm : int
        Distance between sand slits. [nm]
    piped_spacing_nm : int
        Distance between piped slits. [nm]
    conductivity_mm_per_h : float
        Saturated conductivity of the sand. [mm/h]
    """

    width_nm: int
    depth_nm: int
    spacing_nm: int
    piped_spacing_nm: int
    conductivity_mm_per_h: float


def check_grid(grid: SlitGrid) -> SlitGrid:
    """Give a grid back if water could pass through its slits.

    Parameters
    ----------
    grid : SlitGrid
        The grid. [nm, mm/h]

    Returns
    -------
    grid : SlitGrid
        The same. [nm, mm/h]

    Raises
    ------
    CalculationInputError
        If a size is not above zero, or the slits are wider than their spacing.

    Notes
    -----
    Slits that touch would be a sand carpet, which this is not made for.

    Examples
    --------
    By inspection.

    >>> check_grid(SlitGrid(1, 9, 16, 48, 500.0)).spacing_nm
    16
    """
    sizes = (grid.width_nm, grid.depth_nm, grid.piped_spacing_nm, grid.conductivity_mm_per_h)
    if min(sizes) <= 0 or grid.spacing_nm <= grid.width_nm:
        raise CalculationInputError(
            what="the way of water through the slits",
            why="a size is not above zero, or the slits are as wide as they are apart",
            accepted="Give width, depth, both spacings and the conductivity of the sand",
        )
    return grid


def intake_mm_per_h(grid: SlitGrid) -> float:
    """Rain that the sand slits let in from above.

    Parameters
    ----------
    grid : SlitGrid
        The slits. [nm, mm/h]

    Returns
    -------
    rate : float
        Depth of water over the whole surface. [mm/h]

    Notes
    -----
    Conductivity times the share of the surface that is sand: water stands on
    the slit and falls freely through it (unit gradient). Soil between the
    slits and the sand of piped slits are left out, on the safe side. A top
    smeared shut lets in less. Derived here.

    Examples
    --------
    By hand: 1 in 16 is 6.25 %; of 20 that is 1.25.

    >>> intake_mm_per_h(SlitGrid(1, 9, 16, 48, 20.0))
    1.25
    """
    check_grid(grid)
    return grid.conductivity_mm_per_h * grid.width_nm / grid.spacing_nm


def carry_mm_per_h(grid: SlitGrid) -> float:
    r"""Rain that a sand slit carries sideways to the piped slits it crosses.

    .. math::
        R = \frac{4 K b h^2}{s X^2}

    Parameters
    ----------
    grid : SlitGrid
        The slits. [nm, mm/h]

    Returns
    -------
    rate : float
        Depth of water over the whole surface. [mm/h]

    Notes
    -----
    Hooghoudt with a tight floor: q X^2 = 4 K h^2 inside the slit, where the
    rain of a strip s wide is gathered into a width b, so q = R s / b. The slit
    is full midway and empty at the pipe; flow is taken as level (Dupuit).
    Derived here.

    Examples
    --------
    By hand: 4 x 113.78 x 1 x 9^2 / (16 x 48^2) = 36 865 / 36 864.

    >>> round(carry_mm_per_h(SlitGrid(1, 9, 16, 48, 113.78)), 4)
    1.0
    """
    check_grid(grid)
    gathered = grid.width_nm / grid.spacing_nm
    slope = grid.depth_nm / grid.piped_spacing_nm
    return 4 * grid.conductivity_mm_per_h * gathered * slope**2


def pipe_mm_per_h(flow_m3_per_s: float, area_m2: float) -> float:
    """Rain that a pipe carries off the area that drains to it.

    Parameters
    ----------
    flow_m3_per_s : float
        What the pipe carries; for a collector its worst reach. [m3/s]
    area_m2 : float
        Area that drains to it; for a piped slit ``strip_area_m2``. [m2]

    Returns
    -------
    rate : float
        Depth of water over that area. [mm/h]

    Raises
    ------
    CalculationInputError
        If the area is not above zero or the flow is negative.

    Notes
    -----
    Everything that falls on the area is taken to arrive. Derived here.

    Examples
    --------
    By hand: a litre a second off 3600 m2 is 3600 L an hour, a millimetre.

    >>> round(pipe_mm_per_h(0.001, 3600), 12)
    1.0
    """
    if area_m2 <= 0 or flow_m3_per_s < 0:
        raise CalculationInputError(
            what="what a pipe takes off a surface",
            why="the area is not above zero, or the flow is negative",
            accepted="Give the area that drains to the pipe, and its flow from zero up",
        )
    return flow_m3_per_s / area_m2 * _MM_PER_H


def strip_area_m2(length_nm: int, piped_spacing_nm: int) -> float:
    """Area that drains to one piped slit.

    Parameters
    ----------
    length_nm : int
        Length of the piped slit. [nm]
    piped_spacing_nm : int
        Distance between piped slits. [nm]

    Returns
    -------
    area : float
        Half a spacing to either side. [m2]

    Notes
    -----
    The longest piped slit governs, where all fall alike. Derived here.

    Examples
    --------
    By hand: 20 m x 1.5 m.

    >>> strip_area_m2(20 * 10**9, 15 * 10**8)
    30.0
    """
    return (length_nm / NM_PER_M) * (piped_spacing_nm / NM_PER_M)


def governing_gate(rates: Mapping[Gate, float]) -> Gate:
    """Find the narrowest of the gates.

    Parameters
    ----------
    rates : mapping of Gate to float
        Depth of water over the surface; leave out what is not known. [mm/h]

    Returns
    -------
    gate : Gate
        The one with the least rate; of equals the first that water meets. [-]

    Raises
    ------
    CalculationInputError
        If no gate is known.

    Notes
    -----
    What is left out is not judged: say so where the answer is shown.

    Examples
    --------
    By inspection: 1 is less than 2.

    >>> governing_gate({Gate.INTAKE: 2.0, Gate.CARRY: 1.0}).name
    'CARRY'
    """
    known = [gate for gate in Gate if gate in rates]
    if not known:
        raise CalculationInputError(
            what="which gate governs",
            why="none of the gates is known",
            accepted="Give the slits, or the pipes, or both",
        )
    return min(known, key=lambda gate: rates[gate])
