"""Allowable misclosure of a run of levels."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import isqrt

from models.errors import CalculationInputError
from models.science.levelling.laser_plane import Length

KM_NM = 1_000_000_000_000
MILE_NM = 1_609_344_000_000


class AllowanceKind(StrEnum):
    """Quantity that the allowable misclosure grows with."""

    ROOT_DISTANCE = "square root of the distance"
    ROOT_SETUPS = "square root of the number of setups"
    SETUPS = "number of setups"
    FIXED = "nothing"


@dataclass(frozen=True, slots=True)
class Allowance:
    """A rule for the misclosure that is let pass.

    Attributes
    ----------
    name : str
        What people call the rule. [-]
    kind : AllowanceKind
        What it grows with. [-]
    amount_nm : int
        Allowed for one unit of that. [nm]
    per_nm : int
        The unit of distance, where distance counts. [nm]
    source : str
        Who published it. [-]
    """

    name: str
    kind: AllowanceKind
    amount_nm: int
    per_nm: int = KM_NM
    source: str = ""


def _fgcc(name: str, millimetres: int) -> Allowance:
    """Make the allowance of one class of the 1984 standards."""
    return Allowance(
        f"{name}: {millimetres} mm x sqrt(km)",
        AllowanceKind.ROOT_DISTANCE,
        millimetres * 1_000_000,
        KM_NM,
        "FGCC Standards 1984, 3.5 (from memory)",
    )


ALLOWANCES: dict[str, Allowance] = {
    "0.05ft-mile": Allowance(
        "0.05 ft x sqrt(miles)",
        AllowanceKind.ROOT_DISTANCE,
        15_240_000,
        MILE_NM,
        "NAVEDTRA 14070 App. VI",
    ),
    "first-1": _fgcc("first order class I", 4),
    "first-2": _fgcc("first order class II", 5),
    "second-1": _fgcc("second order class I", 6),
    "second-2": _fgcc("second order class II", 8),
    "third": _fgcc("third order", 12),
    "0.012ft-setup": Allowance(
        "0.012 ft x sqrt(setups)",
        AllowanceKind.ROOT_SETUPS,
        3_657_600,
        source="0.05 ft x sqrt(miles) of NAVEDTRA 14070 App. VI at 300 ft a setup, rounded up: "
        "0.05 x sqrt(300 / 5280) = 0.0119",
    ),
    "3.6mm-setup": Allowance(
        "3.6 mm x sqrt(setups)",
        AllowanceKind.ROOT_SETUPS,
        3_600_000,
        source="third order, 12 mm x sqrt(km), at 90 m a setup: 12 x sqrt(0.09) = 3.6",
    ),
}
"""Rules by the name they are chosen by. The two by setups are for runs whose length
nobody wrote down: sights of 150 ft, or 45 m, to either side."""


def is_allowed(
    ec_nm: Length, allowance: Allowance, distance_nm: int | None = None, setups: int = 1
) -> bool:
    """Say whether a misclosure is within its allowance; on it counts as within.

    Parameters
    ----------
    ec_nm : int or Fraction
        Error of closure, either sign. [nm]
    allowance : Allowance
        The rule chosen. [-]
    distance_nm : int or None
        Length of the run. [nm]
    setups : int
        Number of setups. [-]

    Returns
    -------
    allowed : bool
        True when the misclosure may stand. [-]

    Raises
    ------
    CalculationInputError
        If the rule needs a distance and none is known.

    Notes
    -----
    Both sides are squared, so no root and no rounding enters the verdict.
    Derived here.

    Examples
    --------
    By hand: a quarter of a mile allows 0.05 x 0.5 = 0.025 ft = 7 620 000 nm.

    >>> rule = ALLOWANCES["0.05ft-mile"]
    >>> [is_allowed(ec, rule, MILE_NM // 4) for ec in (-7_620_000, 7_620_001)]
    [True, False]
    """
    return Fraction(ec_nm * ec_nm) <= _allowed_squared(allowance, distance_nm, setups)


def allowed_nm(allowance: Allowance, distance_nm: int | None = None, setups: int = 1) -> int:
    """Allowable misclosure for showing, cut to whole nanometres.

    Parameters
    ----------
    allowance : Allowance
        The rule chosen. [-]
    distance_nm : int or None
        Length of the run. [nm]
    setups : int
        Number of setups. [-]

    Returns
    -------
    allowed : int
        Largest whole misclosure that is let pass. [nm]

    Raises
    ------
    CalculationInputError
        If the rule needs a distance and none is known.

    Notes
    -----
    Agrees with ``is_allowed`` for every whole misclosure. Derived here.

    Examples
    --------
    By hand: 12 mm x sqrt(4 km) = 24 mm.

    >>> allowed_nm(ALLOWANCES["third"], 4 * KM_NM)
    24000000
    """
    squared = _allowed_squared(allowance, distance_nm, setups)
    return isqrt(squared.numerator // squared.denominator)


def _allowed_squared(allowance: Allowance, distance_nm: int | None, setups: int) -> Fraction:
    """Square of the allowable misclosure [nm2]."""
    squared = allowance.amount_nm**2
    if allowance.kind is AllowanceKind.FIXED:
        return Fraction(squared)
    if allowance.kind is AllowanceKind.SETUPS:
        return Fraction(squared * setups**2)
    if allowance.kind is AllowanceKind.ROOT_SETUPS:
        return Fraction(squared * setups)
    if distance_nm is None:
        raise CalculationInputError(
            what=f"the allowable misclosure by {allowance.name}",
            why="the length of the run is not known",
            accepted="Give a distance on every foresight, or choose an allowance by setups",
        )
    return Fraction(squared * distance_nm, allowance.per_nm)
