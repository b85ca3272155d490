"""Stations: distance along a line, written with a plus between the whole stations and the rest.

Whether a station is 100 ft, 1000 m or 100 m is declared by the job; the text
alone cannot tell.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import NamedTuple

from models.units.clean_text import TypedText
from models.units.length import NM_PER, LengthUnit, read_length
from models.units.number_text import read_decimal, refuse_too_large, refuse_unread
from models.units.rounding import round_half_even, show_decimal


class StationStyle(StrEnum):
    """How far apart whole stations lie, and the unit between them."""

    US_100FT = "us_100ft"
    METRIC_1000M = "metric_1000m"
    METRIC_100M = "metric_100m"


STATION_UNIT: dict[StationStyle, LengthUnit] = {
    StationStyle.US_100FT: LengthUnit.FT,
    StationStyle.METRIC_1000M: LengthUnit.M,
    StationStyle.METRIC_100M: LengthUnit.M,
}
"""The unit that figures after the plus are in."""

_FIGURES: dict[StationStyle, int] = {
    StationStyle.US_100FT: 2,
    StationStyle.METRIC_1000M: 3,
    StationStyle.METRIC_100M: 2,
}
STATION_FORMS: dict[StationStyle, tuple[str, str, str]] = {
    StationStyle.US_100FT: ("1+25.5", "sta 0+75", "125.5"),
    StationStyle.METRIC_1000M: ("0+125.5", "sta 1+250", "125.5"),
    StationStyle.METRIC_100M: ("1+25.5", "sta 0+75", "125.5"),
}
_STATION = re.compile(r"(?P<sign>-)? *(?P<whole>\d+) *\+ *(?P<number>\d+(?:\.\d+)?)")
_PREFIX = re.compile(r"(?:station|sta\.?) *")
_FAULTS = (
    (re.compile(r"\d *\+ *(-)"), "the sign of a station goes before it, not after the +"),
    (re.compile(r"\d *(\+)[^+]*\+"), "there is more than one +"),
    (re.compile(r"\d\.\d* *(\+)"), "whole stations stand before the +"),
    (re.compile(r"^(\+)"), "the number of whole stations is missing before the +"),
    (re.compile(r"\d *(\+) *(?!\d)"), "figures are missing after the +"),
)


def parse_station(text: str, style: StationStyle) -> int:
    """Read a station as nanometres from station zero.

    A bare number, or a length with its unit, is the distance along in feet
    (metres for the metric styles), not a number of stations. The sign of a negative
    station takes in all of it: ``-1+45.67`` lies 145.67 ft before zero.

    Raises
    ------
    UnreadableError
        If it is not a station of this style.

    Examples
    --------
    >>> parse_station("1+25.5", StationStyle.US_100FT) / 304_800_000
    125.5
    """
    typed = TypedText(text, "a station", STATION_FORMS[style])
    prefix = _PREFIX.match(typed.text)
    start = prefix.end() if prefix else 0
    found = _STATION.fullmatch(typed.text, start)
    if not found:
        return _read_distance(typed, start, style)
    figures = _FIGURES[style]
    if len(found["number"].partition(".")[0]) != figures:
        typed.refuse(f"this job's stations have {figures} figures after the +", found.end("whole"))
    unit_nm = NM_PER[STATION_UNIT[style]]
    count, scale = read_decimal(found["number"])
    rest_nm, finer = divmod(count * unit_nm, scale)
    if finer:
        typed.refuse("it is finer than a millionth of a millimetre", found.end("number") - 1)
    size_nm = int(found["whole"]) * 10**figures * unit_nm + rest_nm
    return refuse_too_large(typed, -size_nm if found["sign"] else size_nm)


def _read_distance(typed: TypedText, start: int, style: StationStyle) -> int:
    """Read a text without whole stations as a distance along."""
    if "+" in typed.text[start:]:
        refuse_unread(typed, _FAULTS)
    return read_length(typed.after(start), STATION_UNIT[style], signed=True)


def show_station(nm: int, style: StationStyle, places: int = 1, *, mark: bool = False) -> str:
    """Write a distance from station zero as a station, rounded once, ties to even.

    Examples
    --------
    >>> show_station(125_500_000_000, StationStyle.METRIC_1000M)
    '0+125.5'
    >>> show_station(-44_400_216_000, StationStyle.US_100FT, 2)
    '-1+45.67'
    """
    unit_nm = NM_PER[STATION_UNIT[style]]
    scale = 10**places
    count = round_half_even(nm * scale, unit_nm)
    hint = "~" if mark and count * unit_nm != nm * scale else ""
    figures = _FIGURES[style]
    whole, rest = divmod(abs(count), 10**figures * scale)
    width = figures + (places + 1 if places else 0)
    sign = "-" if count < 0 else ""
    return f"{hint}{sign}{whole}+{show_decimal(rest, places).rjust(width, '0')}"


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
