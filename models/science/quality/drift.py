"""Runs of readings on one side of their target: wear shows before anything is out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from models.errors import CalculationInputError


class Side(StrEnum):
    """Where a reading lies against its target."""

    BELOW = "below"
    ABOVE = "above"


@dataclass(frozen=True, slots=True)
class Drift:
    """A run of readings that all lie on one side of the target.

    Attributes
    ----------
    side : Side
        Which side. [-]
    first : int
        Index of the first reading of the run. [-]
    last : int
        Index of the last. [-]
    """

    side: Side
    first: int
    last: int

    @property
    def n(self) -> int:
        """Number of readings in the run [-]."""
        return self.last - self.first + 1

    @property
    def reason(self) -> str:
        """Why this is held to be more than chance, as a sentence."""
        return (
            f"{self.n} readings in a row lie {self.side} target; were they scattered evenly "
            f"about it, a run on this side starting at a given reading would come "
            f"once in {2**self.n}."
        )


def find_drifts(
    readings_nm: Sequence[int], target_nm: int, run: int, side: Side | None = None
) -> list[Drift]:
    """Every run of at least so many readings on one side of the target.

    Parameters
    ----------
    readings_nm : sequence of int
        Readings in the order taken. [nm]
    target_nm : int
        What they aim at. [nm]
    run : int
        How many in a row make a drift. [-]
    side : Side or None
        Watch this side alone, as for a blade that can only wear shallow;
        None watches both. [-]

    Returns
    -------
    drifts : list of Drift
        In order; a run is given once, at its full length. [-]

    Raises
    ------
    CalculationInputError
        If the run asked for is below two.

    Notes
    -----
    A reading exactly on target ends a run. Control-chart practice uses seven
    to nine in a row (from memory). Derived here.

    Examples
    --------
    By inspection: the last three lie below 9.

    >>> [(d.side.value, d.first, d.last) for d in find_drifts([9, 10, 8, 7, 8], 9, 3)]
    [('below', 2, 4)]
    """
    if run < 2:
        raise CalculationInputError(
            what="a drift", why=f"a run of {run} is no run", accepted="Ask for two or more in a row"
        )
    drifts: list[Drift] = []
    first = 0
    for where, group in groupby(readings_nm, key=lambda reading: _side(reading, target_nm)):
        last = first + len(list(group)) - 1
        if where is not None and last - first + 1 >= run and side in (None, where):
            drifts.append(Drift(where, first, last))
        first = last + 1
    return drifts


def _side(reading_nm: int, target_nm: int) -> Side | None:
    """Side of the target a reading lies on, None when it is on it."""
    if reading_nm == target_nm:
        return None
    return Side.BELOW if reading_nm < target_nm else Side.ABOVE
