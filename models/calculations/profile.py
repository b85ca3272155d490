"""Shots along a collector, and how far each lies off its design."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from models.calculations.laser import GradeLine, Length, elevation_at_nm
from models.calculations.verdict import Verdict, judge
from models.errors import CalculationInputError


@dataclass(frozen=True, slots=True)
class Shot:
    """One elevation along a collector.

    Attributes
    ----------
    station_nm : int
        Where. [nm]
    elevation_nm : int or Fraction
        How high. [nm above datum]
    """

    station_nm: int
    elevation_nm: Length


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far a shot lies off its design.

    Attributes
    ----------
    shot : Shot
        What was shot. [nm]
    off_nm : Fraction
        Shot less design: positive is high, lower it by so much. [nm]
    verdict : Verdict
        Whether that is within tolerance. [-]
    """

    shot: Shot
    off_nm: Fraction
    verdict: Verdict


def in_order(shots: Sequence[Shot]) -> tuple[Shot, ...]:
    """Give the shots back if they are in order of growing station.

    Parameters
    ----------
    shots : sequence of Shot
        The shots. [nm]

    Returns
    -------
    shots : tuple of Shot
        The same. [nm]

    Raises
    ------
    CalculationInputError
        If two shots are at one station or out of order.

    Notes
    -----
    Two shots of one station have to be settled by whoever knows which counts.

    Examples
    --------
    By inspection.

    >>> len(in_order([Shot(0, 5), Shot(1, 5)]))
    2
    """
    for place, (one, other) in enumerate(pairwise(shots), start=2):
        if other.station_nm <= one.station_nm:
            raise CalculationInputError(
                what="a profile",
                why=f"shot {place} is not further along than the one before it",
                accepted="Give one shot for each station, in order of growing station",
            )
    return tuple(shots)


def deviations(design: GradeLine, shots: Sequence[Shot], tolerance_nm: int) -> list[Deviation]:
    """How far each shot is off design, and whether that is within tolerance.

    Parameters
    ----------
    design : GradeLine
        The design line. [nm]
    shots : sequence of Shot
        In any order. [nm]
    tolerance_nm : int
        Allowed either way; on it is within. [nm]

    Returns
    -------
    deviations : list of Deviation
        One for each shot. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: the design is 1 at station 100, the shots are 3 and 4 at it.

    >>> design = GradeLine(0, 0, Fraction(1, 100))
    >>> found = deviations(design, [Shot(100, 3), Shot(100, 4)], 2)
    >>> [(int(one.off_nm), str(one.verdict)) for one in found]
    [(2, 'OK'), (3, 'OUT')]
    """
    found: list[Deviation] = []
    for shot in shots:
        off_nm = shot.elevation_nm - elevation_at_nm(design, shot.station_nm)
        found.append(Deviation(shot, off_nm, judge(off_nm, -tolerance_nm, tolerance_nm)))
    return found
