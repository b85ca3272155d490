"""Shots along a collector, and how far each lies off its design."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.errors import CalculationInputError
from models.science.levelling.laser_plane import Length


@dataclass(frozen=True, slots=True)
class Shot:
    """An elevation along a collector.

    Attributes
    ----------
    station_nm : int
        Where. [nm]
    elevation_nm : int or Fraction
        How high. [nm above datum]
    """

    station_nm: int
    elevation_nm: Length


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
