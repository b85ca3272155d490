"""Computes which change raises the governing flow limit, and the time to clear a stated rain."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import log

from models.errors import CalculationInputError
from models.science.water.gates import Gate, SlitGrid, governing_gate


class Lever(StrEnum):
    """Parts of the drainage that somebody could change."""

    SPACING = "spacing of the sand slits"
    WIDTH = "width of the sand slits"
    DEPTH = "depth of the sand slits"
    SAND = "conductivity of the sand"
    PIPED_SPACING = "spacing of the piped slits"
    PIPE_GRADE = "grade of the piped slits"
    PIPE_BORE = "bore of the pipe in the slits"
    COLLECTOR_GRADE = "grade of the collector"
    COLLECTOR_BORE = "bore of the collector"


POWERS: dict[Lever, dict[Gate, float]] = {
    Lever.SPACING: {Gate.INTAKE: -1, Gate.CARRY: -1},
    Lever.WIDTH: {Gate.INTAKE: 1, Gate.CARRY: 1},
    Lever.DEPTH: {Gate.CARRY: 2},
    Lever.SAND: {Gate.INTAKE: 1, Gate.CARRY: 1},
    Lever.PIPED_SPACING: {Gate.CARRY: -2, Gate.PIPE: -1},
    Lever.PIPE_GRADE: {Gate.PIPE: 1 / 2},
    Lever.PIPE_BORE: {Gate.PIPE: 8 / 3},
    Lever.COLLECTOR_GRADE: {Gate.COLLECTOR: 1 / 2},
    Lever.COLLECTOR_BORE: {Gate.COLLECTOR: 8 / 3},
}
"""By which power of a lever each gate grows; a gate that is not named doesn't move."""


@dataclass(frozen=True, slots=True)
class Widening:
    """The least change of one lever that lets another gate govern.

    Attributes
    ----------
    lever : Lever
        What to change. [-]
    factor : float
        By how much to multiply it; below 1 is closer or smaller. [-]
    next_gate : Gate
        The gate that then governs together with the old one. [-]
    rate_mm_per_h : float
        What both then let through. [mm/h]
    """

    lever: Lever
    factor: float
    next_gate: Gate
    rate_mm_per_h: float


def widenings(rates: Mapping[Gate, float]) -> list[Widening]:
    r"""Find what would widen the narrowest gate until the next one governs.

    A gate that grows by the power :math:`a` of a lever meets one that grows by
    :math:`b` when the lever is multiplied by

    .. math::
        f = (R_{next} / R)^{1 / (a - b)}

    Parameters
    ----------
    rates : mapping of Gate to float
        Each known gate. [mm/h]

    Returns
    -------
    widenings : list of Widening
        One for each lever that can do it, in the order of Lever; the least
        change where several gates could be met. [-]

    Raises
    ------
    CalculationInputError
        If a gate lets nothing through: no factor cures that.

    Notes
    -----
    One lever at a time, however far it has to go: see ``can_be_cut``. The sand
    can't make the intake meet the carry, since both grow with it: only the
    pipes can be met then. Exact for the formulas of ``gates``, which are
    estimates. Derived here.

    Examples
    --------
    By hand: the carry of 1 meets the intake of 4 when the slits are twice as
    deep (2^2 = 4) or the piped slits half as far apart (0.5^-2 = 4).

    >>> for found in widenings({Gate.INTAKE: 4.0, Gate.CARRY: 1.0}):
    ...     print(found.lever.name, found.factor, found.next_gate.name, found.rate_mm_per_h)
    DEPTH 2.0 INTAKE 4.0
    PIPED_SPACING 0.5 INTAKE 4.0
    """
    governing = governing_gate(rates)
    if rates[governing] <= 0:
        raise CalculationInputError(
            what="what would widen the drainage",
            why=f"{governing.value} is nothing, and no factor makes something of it",
            accepted="Cure that first: a flat or adverse reach has to be laid again",
        )
    found: list[Widening] = []
    for lever, powers in POWERS.items():
        own = powers.get(governing, 0)
        met = [
            Widening(lever, ratio ** (1 / (own - other)), gate, rates[governing])
            for gate in Gate
            if gate in rates and gate is not governing
            for other in [powers.get(gate, 0)]
            if own and (own - other) * own > 0
            for ratio in [rates[gate] / rates[governing]]
        ]
        if met:
            least = min(met, key=lambda one: abs(log(one.factor)))
            rate = rates[governing] * least.factor**own
            found.append(Widening(lever, least.factor, least.next_gate, rate))
    return found


def can_be_cut(widening: Widening, grid: SlitGrid) -> bool:
    """Whether slits would still be apart after a change.

    Parameters
    ----------
    widening : Widening
        The change. [-]
    grid : SlitGrid
        The slits as they are. [nm]

    Returns
    -------
    can : bool
        False when the slits would touch; True for any other lever. [-]

    Notes
    -----
    Says nothing of what a machine, the ground or money allows.

    Examples
    --------
    By hand: slits 1 wide and 16 apart touch when they are 1 apart, a sixteenth.

    >>> closer = Widening(Lever.SPACING, 1 / 16, Gate.PIPE, 1.0)
    >>> can_be_cut(closer, SlitGrid(1, 9, 16, 48, 1.0))
    False
    """
    if widening.lever is Lever.SPACING:
        return grid.spacing_nm * widening.factor > grid.width_nm
    if widening.lever is Lever.WIDTH:
        return grid.width_nm * widening.factor < grid.spacing_nm
    return True


@dataclass(frozen=True, slots=True)
class RainGone:
    """Drainage of a stated rain off the surface, with its time.

    Attributes
    ----------
    gone_h : float
        Hours from the start of the rain until it has left. [h]
    after_h : float
        Hours from the end of the rain until it has left. [h]
    standing_mm : float
        Most water on the surface, at the end of the rain. [mm]
    """

    gone_h: float
    after_h: float
    standing_mm: float


def rain_gone(rain_mm: float, lasts_h: float, rate_mm_per_h: float) -> RainGone:
    """How long a stated rain takes to leave, at the rate of the narrowest gate.

    Parameters
    ----------
    rain_mm : float
        Depth of rain. [mm]
    lasts_h : float
        How long it falls, evenly. [h]
    rate_mm_per_h : float
        Rate of the gate that governs. [mm/h]

    Returns
    -------
    gone : RainGone
        When it has left, and how much stands at most. [h, mm]

    Raises
    ------
    CalculationInputError
        If the rate is not above zero, or the rain or its duration is negative.

    Notes
    -----
    An estimate: rain falls evenly, all of it must leave by the drains, the
    sand starts full of water, and water finds its way to a slit at once. Slits
    need a surface that falls towards them; hollows hold water longer. Derived
    here.

    Examples
    --------
    By hand: 20 mm in an hour at 8 mm/h: 12 mm stand, and 1.5 h later are gone.

    >>> rain_gone(20, 1, 8)
    RainGone(gone_h=2.5, after_h=1.5, standing_mm=12)
    """
    if rate_mm_per_h <= 0 or rain_mm < 0 or lasts_h < 0:
        raise CalculationInputError(
            what="when a rain has left",
            why="nothing leaves, or the rain or its duration is below zero",
            accepted="Give a rain, its duration, and a rate above zero",
        )
    gone_h = max(lasts_h, rain_mm / rate_mm_per_h)
    return RainGone(gone_h, gone_h - lasts_h, max(0, rain_mm - rate_mm_per_h * lasts_h))
