"""Grades as exact fractions of fall over run, positive where it falls with the flow."""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction

from models.units.clean_text import TypedText
from models.units.length import NM_PER, UNIT_WORDS, LengthUnit
from models.units.number_text import MIXED, NUMBER, read_decimal, read_mixed, refuse_unread
from models.units.rounding import round_half_even, show_decimal, show_mixed
from models.units.spec import SHARES, by_word

GRADE_FORMS = ("1%", "1:200", "1/8 in/ft")
_HAS_UNIT = re.compile(r"[A-Za-z%:/\u2030]|\uff05")
_US = frozenset({LengthUnit.IN, LengthUnit.FT})
_UNIT = r"""["']|[a-z]+?\.?"""
_PERCENT_WORD = "|".join(by_word(SHARES)) + r"|pct\.?"
_PERCENT = re.compile(
    rf"(?P<sign>[+-])? *(?:(?P<number>{NUMBER}) *(?P<of>{_PERCENT_WORD})?"
    rf"|{MIXED} *(?P<part_of>{_PERCENT_WORD}))"
)
_RATIO = re.compile(rf"(?P<sign>[+-])? *(?P<one>{NUMBER}) *(?::|in) *(?P<run>{NUMBER})")
_PER = re.compile(
    rf"""(?P<sign>[+-])?\ *(?:{MIXED}|(?P<number>{NUMBER}))\ *(?P<up>{_UNIT})
    \ *(?:/|per)\ *(?P<run>{NUMBER})?\ *(?P<along>{_UNIT})""",
    re.VERBOSE,
)
_FAULTS = (
    (
        re.compile(rf"\d *(in) *{NUMBER} *[a-z'\"]"),
        "'in' may be an inch or a ratio here; write 1:n or 1 in per n ft",
    ),
    (re.compile(r"(?:per|/) *[\d.]+()$"), "the length it falls in has no unit"),
    (re.compile(r"\d(\+)\d"), "that is a station, not a grade"),
)


def parse_grade(text: str) -> Fraction:
    """Read a grade, positive where it falls in the direction of flow; a bare number is percent.

    ``1 in 200`` is a ratio and ``1 in per 10 ft`` is inches; only ``per`` or ``/``
    makes it inches. A ratio is always one of fall to n of run.

    Raises
    ------
    UnreadableError
        If it is not a grade, or steeper than 100 %.

    Examples
    --------
    >>> parse_grade("1:200") == parse_grade("0.5 %") == parse_grade("5 mm/m")
    True
    """
    typed = TypedText(text, "a grade", GRADE_FORMS)
    if typed.text == "level":
        return Fraction(0)
    if found := _PERCENT.fullmatch(typed.text):
        size = _share(typed, found)
    elif found := _RATIO.fullmatch(typed.text):
        size = _ratio(typed, found)
    elif found := _PER.fullmatch(typed.text):
        size = _fall_per_run(typed, found)
    else:
        refuse_unread(typed, _FAULTS)
    if size > 1:
        typed.refuse("it is steeper than 100 %", 0)
    return -size if found["sign"] == "-" else size


def has_grade_unit(text: str) -> bool:
    """Whether a text says what its figure is: percent, a ratio, a fall in a run."""
    return _HAS_UNIT.search(text) is not None


def _share(typed: TypedText, found: re.Match[str]) -> Fraction:
    """Grade in percent or per mille, as a decimal or as parts of a percent: ``1/2 %``."""
    of = found["of"] or found["part_of"]
    number = Fraction(*read_decimal(found["number"])) if found["number"] else None
    size = read_mixed(typed, found) if number is None else number
    return size / (1000 if of == "\u2030" else 100)


def _ratio(typed: TypedText, found: re.Match[str]) -> Fraction:
    """Grade of one in n."""
    count, scale = read_decimal(found["one"])
    if count != scale:
        typed.refuse("a ratio begins with 1: one of fall to n of run", found.start("one"))
    run, run_scale = read_decimal(found["run"])
    if not run:
        typed.refuse("the run cannot be 0", found.start("run"))
    return Fraction(run_scale, run)


def _fall_per_run(typed: TypedText, found: re.Match[str]) -> Fraction:
    """Grade of a fall with its unit in a run with its unit."""
    up, along = _unit(typed, found, "up"), _unit(typed, found, "along")
    if (up in _US) is not (along in _US):
        typed.refuse("it mixes feet or inches with metres", found.start("along"))
    if found["number"]:
        fall = Fraction(*read_decimal(found["number"]))
    elif up is LengthUnit.IN:
        fall = read_mixed(typed, found)
    else:
        typed.refuse("fractions are read in inches only", found.start("over"))
    run = Fraction(*read_decimal(found["run"])) if found["run"] else Fraction(1)
    if not run:
        typed.refuse("the run cannot be 0", found.start("run"))
    return fall * NM_PER[up] / (run * NM_PER[along])


def _unit(typed: TypedText, found: re.Match[str], group: str) -> LengthUnit:
    """Unit of length in a group of the match."""
    unit = UNIT_WORDS.get(found[group])
    if unit is None:
        typed.refuse(f"'{found[group]}' is not a unit of length that is read", found.start(group))
    return unit


class GradeStyle(StrEnum):
    """Style that a grade is written in."""

    PERCENT_100 = "percent_100"
    PERCENT_1000 = "percent_1000"
    RATIO = "ratio"
    IN_PER_FT = "in_per_ft"
    MM_PER_M = "mm_per_m"


_DECIMAL_STYLES: dict[GradeStyle, tuple[int, int, str]] = {
    GradeStyle.PERCENT_100: (10_000, 2, " %"),
    GradeStyle.PERCENT_1000: (100_000, 3, " %"),
    GradeStyle.MM_PER_M: (10_000, 1, " mm/m"),
}


def show_grade(
    grade: Fraction, style: GradeStyle = GradeStyle.PERCENT_100, *, mark: bool = False
) -> str:
    """Write a grade in a style, rounded once, ties to even.

    A ratio is shown to a whole run from 1:10 on and to a tenth below; no fall is
    ``level``, as 1:n has no figure for it. Inches per foot go by sixteenths.

    Examples
    --------
    >>> show_grade(Fraction(1, 192)), show_grade(Fraction(1, 192), GradeStyle.IN_PER_FT)
    ('0.52 %', '1/16 in/ft')
    """
    if style is GradeStyle.RATIO:
        shown, exact = _show_ratio(grade)
    elif style is GradeStyle.IN_PER_FT:
        count = round_half_even(grade * 192)
        shown, exact = f"{show_mixed(count, 16)} in/ft", Fraction(count, 192) == grade
    else:
        parts, places, name = _DECIMAL_STYLES[style]
        count = round_half_even(grade.numerator * parts, grade.denominator)
        shown, exact = f"{show_decimal(count, places)}{name}", Fraction(count, parts) == grade
    return shown if exact or not mark else f"~{shown}"


def _show_ratio(grade: Fraction) -> tuple[str, bool]:
    """Grade as 1:n, and whether n is exact."""
    if not grade:
        return "level", True
    run = 1 / abs(grade)
    tenths = round_half_even(run * 10)
    if tenths >= 100:
        tenths = 10 * round_half_even(run)
    shown = show_decimal(tenths, 1).removesuffix(".0")
    return f"{'-' if grade < 0 else ''}1:{shown}", tenths == run * 10
