"""Bearings and places on the Earth, in whole millionths and billionths of a degree."""

from __future__ import annotations

import re
from fractions import Fraction

from models.units.clean_text import TypedText
from models.units.number_text import NUMBER, read_decimal, refuse_unread
from models.units.rounding import round_half_even, show_decimal

UDEG_PER_DEGREE = 1_000_000
NDEG_PER_DEGREE = 1_000_000_000
FULL_TURN_UDEG = 360 * UDEG_PER_DEGREE

_UNIT = r"(?:degrees|degree|deg\.?)?"
_DEGREES = re.compile(rf"(?P<sign>[+-])? *(?P<number>{NUMBER}) *{_UNIT}")
_QUADRANT = re.compile(rf"(?P<pole>[ns]) *(?P<number>{NUMBER}) *{_UNIT} *(?P<side>[ew])")
_POINTS = {"n": 0, "ne": 45, "e": 90, "se": 135, "s": 180, "sw": 225, "w": 270, "nw": 315}
_PLACE = re.compile(rf"(?P<sign>[+-])? *(?P<number>{NUMBER}) *{_UNIT} *(?P<side>[nsew])?")


def parse_bearing(text: str) -> int:
    """Read a bearing clockwise from north as millionths of a degree, from 0 to below 360.

    ``37``, ``37.5 deg``, ``N 30 E`` and ``SW`` are read; ``-10`` is 350.

    Raises
    ------
    UnreadableError
        If it is no bearing, or goes round more than once.

    Examples
    --------
    >>> parse_bearing("S 45 E"), parse_bearing("-10"), parse_bearing("90\u00b0")
    (135000000, 350000000, 90000000)
    """
    typed = _typed(text, "a bearing", ("37", "37.5 deg", "N 30 E"))
    if typed.text in _POINTS:
        return _POINTS[typed.text] * UDEG_PER_DEGREE
    if found := _QUADRANT.fullmatch(typed.text):
        turn = _fraction(found["number"])
        if turn > 90:
            typed.refuse("between north or south and east or west lie 90 degrees", found.start(2))
        bearing = turn if found["pole"] == "n" else 180 - turn
        bearing = bearing if found["side"] == "e" else 360 - bearing
    elif found := _DEGREES.fullmatch(typed.text):
        bearing = _fraction(found["number"]) * (-1 if found["sign"] == "-" else 1)
        if abs(bearing) > 360:
            typed.refuse("a bearing goes round no more than once", found.start("number"))
    else:
        refuse_unread(typed)
    return round_half_even(bearing * UDEG_PER_DEGREE) % FULL_TURN_UDEG


def show_bearing(bearing_udeg: int) -> str:
    """Write a bearing in degrees, to a hundredth where it has one: ``37 deg``, ``37.25 deg``.

    Examples
    --------
    >>> show_bearing(37_250_000), show_bearing(90_000_000)
    ('37.25 deg', '90 deg')
    """
    hundredths = round_half_even(bearing_udeg, UDEG_PER_DEGREE // 100) % 36_000
    shown = show_decimal(hundredths, 2)
    return f"{shown.rstrip('0').rstrip('.')} deg"


def parse_longitude(text: str) -> int:
    """Read a longitude as billionths of a degree, east positive: ``-93.625``, ``93.625 W``.

    Raises
    ------
    UnreadableError
        If it is none, or lies beyond 180 degrees.
    """
    typed = _typed(text, "a longitude", ("-93.625", "93.625 W", "7.01 E"))
    return _place(typed, "ew", 180)


def parse_latitude(text: str) -> int:
    """Read a latitude as billionths of a degree, north positive: ``41.5868``, ``33.9 S``.

    Raises
    ------
    UnreadableError
        If it is none, or lies beyond 90 degrees.
    """
    typed = _typed(text, "a latitude", ("41.5868", "41.5868 N", "-33.9"))
    return _place(typed, "ns", 90)


def _typed(text: str, what: str, forms: tuple[str, str, str]) -> TypedText:
    """A text with its degree sign spelt out."""
    return TypedText(text.replace("\u00b0", " deg "), what, forms)


def _place(typed: TypedText, sides: str, farthest: int) -> int:
    """Degrees with a sign or a side of the world."""
    found = _PLACE.fullmatch(typed.text)
    if found is None:
        refuse_unread(typed)
    side = found["side"]
    if side and side not in sides:
        typed.refuse(f"{side.upper()} is not a side that it is counted to", found.start("side"))
    if side and found["sign"]:
        typed.refuse("a sign and a side do not go together", found.start("sign"))
    degrees = _fraction(found["number"])
    if degrees > farthest:
        typed.refuse(f"it lies beyond {farthest} degrees", found.start("number"))
    is_negative = found["sign"] == "-" or side == sides[1]
    return round_half_even(degrees * NDEG_PER_DEGREE) * (-1 if is_negative else 1)


def _fraction(number: str) -> Fraction:
    """A decimal as an exact fraction."""
    return Fraction(*read_decimal(number))
