"""Flow in a round pipe that runs full, by Manning's formula, and the grade it takes.

Inside, everything is SI; the constant is then 1. The US form with 1.486 in place
of 1.485918 gives 0.006 % more, the one with 1.49 gives 0.27 % more.
"""

from __future__ import annotations

from fractions import Fraction
from math import pi, sqrt

from models.errors import CalculationInputError

NM_PER_M = 10**9

Number = int | float | Fraction


def full_velocity_m_per_s(bore_nm: int, grade: Number, roughness: float) -> float:
    r"""Velocity in a round pipe that runs full, without pressure.

    .. math::
        V = \frac{1}{n} R^{2/3} \sqrt{S}, \qquad R = D / 4

    Parameters
    ----------
    bore_nm : int
        Inside diameter, measured: a nominal 4 in is often 3.875 in. [nm]
    grade : int, float or Fraction
        Fall for each unit of run. [m/m]
    roughness : float
        Manning's n; see ROUGHNESS in ``pipe_run``. [s/m^(1/3)]

    Returns
    -------
    velocity : float
        Mean velocity; nothing where the grade is flat or adverse. [m/s]

    Raises
    ------
    CalculationInputError
        If the bore or the roughness is not above zero.

    Notes
    -----
    Steady, even flow in a long reach. Velocity falls in proportion to n, so n
    belongs beside every figure. Source: Manning's formula as any hydraulics
    text prints it, from memory; checked in tests against two libraries.

    Examples
    --------
    By hand: R = 1 m, S = 0.0004, n = 0.02 gives 1 / 0.02 x 1 x 0.02 = 1.

    >>> round(full_velocity_m_per_s(4 * 10**9, Fraction(4, 10_000), 0.02), 12)
    1.0
    """
    if bore_nm <= 0 or roughness <= 0:
        raise CalculationInputError(
            what="the flow of a pipe",
            why="its bore or its roughness is not above zero",
            accepted="Give the inside diameter as measured, and an n such as 0.015",
        )
    radius_m = bore_nm / NM_PER_M / 4
    return float(radius_m ** (2 / 3)) * sqrt(max(0.0, float(grade))) / roughness


def full_flow_m3_per_s(bore_nm: int, grade: Number, roughness: float) -> float:
    """Flow of a round pipe that runs full, without pressure.

    Parameters
    ----------
    bore_nm : int
        Inside diameter. [nm]
    grade : int, float or Fraction
        Fall for each unit of run. [m/m]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    flow : float
        Nothing where the grade is flat or adverse. [m3/s]

    Notes
    -----
    Limits and source are those of ``full_velocity_m_per_s``.

    Examples
    --------
    By hand: 1 m/s through a bore of 4 m, whose area is pi x 4.

    >>> round(full_flow_m3_per_s(4 * 10**9, 0.0004, 0.02), 4)
    12.5664
    """
    area_m2 = pi * (bore_nm / NM_PER_M) ** 2 / 4
    return area_m2 * full_velocity_m_per_s(bore_nm, grade, roughness)
