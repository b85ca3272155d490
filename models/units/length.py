"""Lengths as whole nanometres: read and written as crews write them.

One nanometre holds 1/64 in, 0.001 ft and 0.1 mm exactly; nothing coarser than
25 nm holds all three, so a reading prints back as it was typed.
"""

from __future__ import annotations

import re
from enum import StrEnum

from models.units.clean_text import TypedText
from models.units.number_text import (
    MIXED,
    NUMBER,
    read_decimal,
    read_mixed,
    refuse_sign,
    refuse_too_large,
    refuse_unread,
)
from models.units.rounding import round_half_even, show_decimal, show_mixed
from models.units.spec import LENGTHS, UnitSpec, by_word


class LengthUnit(StrEnum):
    """A unit that lengths are typed in."""

    IN = "in"
    FT = "ft"
    MM = "mm"
    CM = "cm"
    M = "m"


class UnitSystem(StrEnum):
    """Families of units that a job's figures are written in."""

    US = "us"
    METRIC = "metric"


LENGTH_UNITS: dict[LengthUnit, UnitSpec] = {LengthUnit(unit.symbol): unit for unit in LENGTHS}
NM_PER: dict[LengthUnit, int] = {name: unit.base for name, unit in LENGTH_UNITS.items()}
"""Nanometres in one unit; the foot is the international foot, never the survey foot."""
UNIT_WORDS: dict[str, LengthUnit] = {
    word: LengthUnit(unit.symbol) for word, unit in by_word(LENGTHS).items()
}
"""Units by every spelling that is read."""

_FEET_MARK = r"\ *(?:'|ft\.?|feet|foot)\ *-?\ *"
_INCH_MARK = r'(?P<mark>\ *(?:"|in\.?|inch|inches))?'
_DECIMAL = re.compile(
    rf"""(?P<sign>[+-])?\ *(?P<number>{NUMBER})\ *(?P<unit>["']|[a-z]+\.?)?""", re.VERBOSE
)
_FRACTION = re.compile(rf"""(?P<sign>[+-])?\ *{MIXED}\ *(?P<unit>["']|[a-z]+\.?)?""", re.VERBOSE)
_FEET_INCHES = re.compile(
    rf"""(?P<sign>[+-])?\ *(?P<feet>\d+){_FEET_MARK}
    (?:{MIXED}|(?P<number>{NUMBER})){_INCH_MARK}""",
    re.VERBOSE,
)
_FAULTS = (
    (
        re.compile(r"\d*(\.)\d+ *(?:'|ft\.?|feet|foot)[- ]*[\d.]"),
        "feet must be whole when inches follow",
    ),
    (re.compile(r"\d *(:)"), "that is a ratio or a time, not a length"),
    (re.compile(r"\d *([%\u2030])"), "that is a grade, not a length"),
    (re.compile(r"(?:in|ft|m|yd)\^?([23])$"), "that is an area or a volume, not a length"),
    (re.compile(r"\d *(?:in|\") *[- ]*(\d)"), "nothing follows inches"),
)


def parse_length(text: str, unit: LengthUnit, *, signed: bool = False) -> int:
    """Read a length in nanometres; a bare number is in ``unit``.

    Fractions are of inches and go by halves to 64ths. A sign is read only in a
    signed field. Nothing is rounded: a figure finer than a nanometre is refused.

    Raises
    ------
    UnreadableError
        If it is not a length; says where and what would be read.

    Examples
    --------
    >>> parse_length("8-1/2", LengthUnit.IN) == parse_length("215.9 mm", LengthUnit.IN)
    True
    """
    return read_length(TypedText(text, "a length", LENGTH_UNITS[unit].forms), unit, signed=signed)


def read_length(typed: TypedText, unit: LengthUnit, *, signed: bool) -> int:
    """Read a length in nanometres from text already made plain.

    Raises
    ------
    UnreadableError
        If it is not a length.
    """
    found = _DECIMAL.fullmatch(typed.text)
    if found:
        own = _unit_of(typed, found, unit)
        size_nm = _whole_nm(typed, found, own)
    elif found := _FRACTION.fullmatch(typed.text):
        size_nm = _fraction_nm(typed, found, unit)
    elif found := _FEET_INCHES.fullmatch(typed.text):
        size_nm = _feet_inches_nm(typed, found)
    else:
        refuse_unread(typed, _FAULTS)
    return refuse_too_large(typed, refuse_sign(typed, found, signed) * size_nm)


def _unit_of(typed: TypedText, found: re.Match[str], unit: LengthUnit) -> LengthUnit:
    """Unit that was written, or else the field's."""
    word = found["unit"]
    if not word:
        return unit
    own = UNIT_WORDS.get(word)
    if own is None:
        typed.refuse(f"'{word}' is not a unit of length that is read", found.start("unit"))
    return own


def _whole_nm(typed: TypedText, found: re.Match[str], unit: LengthUnit) -> int:
    """Nanometres of the decimal in group ``number``."""
    count, scale = read_decimal(found["number"])
    size_nm, rest = divmod(count * NM_PER[unit], scale)
    if rest:
        typed.refuse("it is finer than a millionth of a millimetre", found.end("number") - 1)
    return size_nm


def _fraction_nm(typed: TypedText, found: re.Match[str], unit: LengthUnit) -> int:
    """Nanometres of whole inches and a fraction."""
    if _unit_of(typed, found, unit) is not LengthUnit.IN:
        at = found.start("unit") if found["unit"] else found.start("over")
        typed.refuse("fractions are read in inches only", at)
    return int(read_mixed(typed, found) * NM_PER[LengthUnit.IN])


def _feet_inches_nm(typed: TypedText, found: re.Match[str]) -> int:
    """Nanometres of whole feet and inches below twelve."""
    inch_nm = NM_PER[LengthUnit.IN]
    if found["number"]:
        inches_nm = _whole_nm(typed, found, LengthUnit.IN)
        at = found.start("number")
    else:
        inches_nm = int(read_mixed(typed, found) * inch_nm)
        at = found.start("whole" if found["whole"] else "over")
    if inches_nm >= 12 * inch_nm:
        typed.refuse("after feet the inches must be below 12", at)
    return int(found["feet"]) * NM_PER[LengthUnit.FT] + inches_nm


class LengthStyle(StrEnum):
    """Style that a length is written in: the unit and the last figure."""

    IN_8 = "in_8"
    IN_16 = "in_16"
    IN_64 = "in_64"
    IN_10 = "in_10"
    IN_1000 = "in_1000"
    FT_1 = "ft_1"
    FT_10 = "ft_10"
    FT_100 = "ft_100"
    FT_1000 = "ft_1000"
    FT_IN_8 = "ft_in_8"
    MM = "mm"
    MM_10 = "mm_10"
    CM_10 = "cm_10"
    M_10 = "m_10"
    M_100 = "m_100"
    M_1000 = "m_1000"


_DECIMAL_STYLES: dict[LengthStyle, tuple[LengthUnit, int]] = {
    LengthStyle.IN_10: (LengthUnit.IN, 1),
    LengthStyle.IN_1000: (LengthUnit.IN, 3),
    LengthStyle.FT_1: (LengthUnit.FT, 0),
    LengthStyle.FT_10: (LengthUnit.FT, 1),
    LengthStyle.FT_100: (LengthUnit.FT, 2),
    LengthStyle.FT_1000: (LengthUnit.FT, 3),
    LengthStyle.MM: (LengthUnit.MM, 0),
    LengthStyle.MM_10: (LengthUnit.MM, 1),
    LengthStyle.CM_10: (LengthUnit.CM, 1),
    LengthStyle.M_10: (LengthUnit.M, 1),
    LengthStyle.M_100: (LengthUnit.M, 2),
    LengthStyle.M_1000: (LengthUnit.M, 3),
}
_FRACTION_STYLES: dict[LengthStyle, int] = {
    LengthStyle.IN_8: 8,
    LengthStyle.IN_16: 16,
    LengthStyle.IN_64: 64,
    LengthStyle.FT_IN_8: 8,
}
STEP_NM: dict[LengthStyle, int] = {
    **{style: NM_PER[unit] // 10**places for style, (unit, places) in _DECIMAL_STYLES.items()},
    **{style: NM_PER[LengthUnit.IN] // parts for style, parts in _FRACTION_STYLES.items()},
}
"""Nanometres in the last figure of each style."""


def show_length(nm: int, style: LengthStyle, *, mark: bool = False, unit: bool = True) -> str:
    """Write a length in a style, rounded once, ties to even.

    With ``mark`` a figure that is not exactly the stored one gets a leading ``~``;
    without ``unit`` the unit is left off (feet and inches keep their marks).

    Examples
    --------
    >>> show_length(215_900_000, LengthStyle.IN_8), show_length(216_408_000, LengthStyle.FT_100)
    ('8-1/2 in', '0.71 ft')
    >>> show_length(216_408_000, LengthStyle.IN_8, mark=True)
    '~8-1/2 in'
    """
    step_nm = STEP_NM[style]
    count = round_half_even(nm, step_nm)
    hint = "~" if mark and count * step_nm != nm else ""
    if style is LengthStyle.FT_IN_8:
        feet, eighths = divmod(abs(count), 96)
        sign = "-" if count < 0 else ""
        return f"{hint}{sign}{feet}'{show_mixed(eighths, 8)}\""
    if style in _FRACTION_STYLES:
        name = " in" if unit else ""
        return f"{hint}{show_mixed(count, _FRACTION_STYLES[style])}{name}"
    own, places = _DECIMAL_STYLES[style]
    name = f" {own}" if unit else ""
    return f"{hint}{show_decimal(count, places)}{name}"
