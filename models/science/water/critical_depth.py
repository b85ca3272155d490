"""Critical depth of a flow in a round pipe, at which it leaves a free end."""

from __future__ import annotations

from math import acos, pi, sin, sqrt

from models.errors import CalculationInputError
from models.science.water.manning import NM_PER_M
from models.science.water.part_full import bisect

GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s2]."""


def critical_fill(flow_m3_per_s: float, bore_nm: int) -> float:
    r"""Fill at which a flow in a round pipe has the least energy.

    .. math::
        \frac{Q^2 T}{g A^3} = 1

    Parameters
    ----------
    flow_m3_per_s : float
        The flow. [m3/s]
    bore_nm : int
        Inside diameter. [nm]

    Returns
    -------
    fill : float
        Depth as a share of the bore, below 1 whatever the flow. [-]

    Raises
    ------
    CalculationInputError
        If the flow is negative or the bore is not above zero.

    Notes
    -----
    The surface's width T goes to nothing towards the crown, so there is always one depth.
    Source: the condition as any text on open channels prints it, from memory; checked in
    tests against EPA SWMM and a published fit.

    Examples
    --------
    By hand: half full, A = pi D^2 / 8 and T = D, so Q^2 = g A^3 / D.

    >>> round(critical_fill(sqrt(GRAVITY * (pi / 8) ** 3), 10**9), 9)
    0.5
    """
    if flow_m3_per_s < 0 or bore_nm <= 0:
        raise CalculationInputError(
            what="the critical depth in a pipe",
            why="the flow is negative, or the bore is not above zero",
            accepted="Give a flow from zero up, and the inside diameter as measured",
        )
    if flow_m3_per_s == 0:
        return 0.0
    bore_m = bore_nm / NM_PER_M

    def excess(fill: float) -> float:
        angle = 2 * acos(1 - 2 * fill)
        area_m2 = (angle - sin(angle)) * bore_m**2 / 8
        width_m = 2 * bore_m * sqrt(fill * (1 - fill))
        return GRAVITY * area_m2**3 - flow_m3_per_s**2 * width_m

    # From a fill that is surely below: towards nothing the width outgrows the cube of the area.
    return bisect(excess, 1e-9, 1.0)


def velocity_head_m(flow_m3_per_s: float, bore_nm: int) -> float:
    """Height that the velocity of water in a full pipe is worth, V^2/2g.

    Parameters
    ----------
    flow_m3_per_s : float
        The flow. [m3/s]
    bore_nm : int
        Inside diameter. [nm]

    Returns
    -------
    head : float
        Velocity head of the full pipe. [m]

    Notes
    -----
    A part-full pipe is faster and has more; where this is used the pipe is drowned or near it.

    Examples
    --------
    By hand: 4.42945 m/s is the velocity of a fall of 1 m.

    >>> round(velocity_head_m(sqrt(2 * GRAVITY) * pi / 4, 10**9), 12)
    1.0
    """
    area_m2 = pi * (bore_nm / NM_PER_M) ** 2 / 4
    return (flow_m3_per_s / area_m2) ** 2 / (2 * GRAVITY)
