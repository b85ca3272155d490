"""Keys made of two names, by which a job's state files entries and totals.

A slash stands between the names, and one within the first is marked, so that "A/B" with "C" and
"A" with "B/C" are two keys. Where no name holds a slash, a key reads as people write it: G7/S01.
"""

from __future__ import annotations

from typing import NewType

LineKey = NewType("LineKey", str)
"""One line of a surface."""
DayPlace = NewType("DayPlace", str)
"""A surface or collector on one day."""
SurfaceMachine = NewType("SurfaceMachine", str)
"""A machine on one surface."""


def line_key(surface_id: str, line_id: str) -> LineKey:
    """Key of a line of a surface."""
    return LineKey(f"{_marked(surface_id)}/{line_id}")


def day_place(day: str, place_id: str) -> DayPlace:
    """Key of a surface or collector on a day; a day holds no slash."""
    return DayPlace(f"{day}/{place_id}")


def surface_machine(surface_id: str, machine_id: str) -> SurfaceMachine:
    """Key of a machine on a surface."""
    return SurfaceMachine(f"{_marked(surface_id)}/{machine_id}")


def split_key(key: LineKey | SurfaceMachine) -> tuple[str, str]:
    """Surface, and line or machine, of a key that was made of them."""
    place = 0
    while key[place] != "/":
        place += 2 if key[place] == _MARK else 1
    return key[:place].replace(_MARK + "/", "/").replace(_MARK * 2, _MARK), key[place + 1 :]


def day_names(key: DayPlace) -> tuple[str, str]:
    """Day and place of a key that ``day_place`` made."""
    day, _, place = key.partition("/")
    return day, place


_MARK = "\\"


def _marked(name: str) -> str:
    if "/" not in name and _MARK not in name:
        return name
    return name.replace(_MARK, _MARK * 2).replace("/", _MARK + "/")
