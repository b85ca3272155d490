"""Points of the local plane, and courses over them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """A point of the local plane, with its level where one was measured."""

    x_nm: int
    y_nm: int
    level_nm: int | None = None


@dataclass(frozen=True, slots=True)
class ByPosition:
    """Where the tablet held itself to be, and the radius that it states for it; None unknown."""

    lat_ndeg: int
    lon_ndeg: int
    good_to_nm: int | None


Course = tuple[Place, ...]
