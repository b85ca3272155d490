"""Stretches along a line, from a lower to a higher station, in whole nanometres."""

from __future__ import annotations

from typing import NamedTuple


class StationRange(NamedTuple):
    """Part of a line between two stations, the lower first; both ends belong to it."""

    low_nm: int
    high_nm: int

    @classmethod
    def between(cls, one_nm: int, other_nm: int) -> StationRange:
        """Put two ends in order: crews walk a line either way.

        Examples
        --------
        >>> StationRange.between(500, 20)
        StationRange(low_nm=20, high_nm=500)
        """
        return cls(min(one_nm, other_nm), max(one_nm, other_nm))

    def holds(self, station_nm: int) -> bool:
        """Whether a station lies in it, or at one of its ends."""
        return self.low_nm <= station_nm <= self.high_nm
