"""Positions of GeoJSON: nested lists of longitude and latitude, every one looked at."""

from __future__ import annotations

from math import isfinite
from typing import Any, NamedTuple

from models.counted import CountedNoun
from models.readers.outlines.problems import FileProblem

MOST_POSITIONS = 100_000


class Position(NamedTuple):
    """Longitude and latitude in degrees, and where in the file they stand."""

    lon: float
    lat: float
    place: str


class Positions:
    """Reads positions, and gathers what is wrong with them."""

    def __init__(self) -> None:
        self.problems: list[FileProblem] = []
        self.read: list[Position] = []
        self.heights = 0
        self._is_full = False

    def fault(self, place: str, met: str, accepted: str) -> None:
        """Note a fault of a position."""
        self.problems.append(FileProblem(place, met, accepted))

    def read_nested(self, value: Any, place: str, depth: int) -> Any:
        """Read lists of positions to a depth; None where anything in them is wrong."""
        if depth == 0:
            return self._position(value, place)
        if not isinstance(value, list) or not value:
            met = "an empty list" if value == [] else type(value).__name__
            self.fault(place, met, f"a list {depth} deep of positions is expected")
            return None
        parts = [self.read_nested(one, f"{place}[{n}]", depth - 1) for n, one in enumerate(value)]
        return None if any(part is None for part in parts) else parts

    def _position(self, value: Any, place: str) -> Position | None:
        """One position, its height left out."""
        accepted = "a longitude and a latitude are expected, as [7.5, 45.25]"
        if not isinstance(value, list) or not 2 <= len(value) <= 3:
            met = (
                f"{CountedNoun(len(value)):number|numbers}"
                if isinstance(value, list)
                else type(value).__name__
            )
            self.fault(place, met, accepted)
            return None
        if not all(_is_number(number) for number in value):
            self.fault(place, str(value), accepted)
            return None
        lon, lat = float(value[0]), float(value[1])
        if not (abs(lon) <= 180 and abs(lat) <= 90):
            within = "longitude comes first, within 180; latitude second, within 90"
            self.fault(place, f"[{lon}, {lat}]", within)
            return None
        if len(self.read) >= MOST_POSITIONS:
            if not self._is_full:
                self.fault(place, "one position too many", f"at most {MOST_POSITIONS} are read")
            self._is_full = True
            return None
        self.heights += len(value) == 3
        position = Position(lon, lat, place)
        self.read.append(position)
        return position


def _is_number(value: Any) -> bool:
    """Tell whether a value of JSON is a finite number that a float holds."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return abs(value) < 1e15 and isfinite(value)
