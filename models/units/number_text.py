"""Figures as people write them: decimals, fractions of an inch, and what spoils them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NoReturn

from models.units.clean_text import TypedText

NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
MIXED = r"(?:(?P<whole>\d+)(?:-|\ +))?(?P<over>\d+)/(?P<under>\d+)"
DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64})
LARGEST = 2**63 - 1
"""The book keeps quantities in 64-bit columns."""

_Fault = tuple[re.Pattern[str], str]

FAULTS: tuple[_Fault, ...] = tuple(
    (re.compile(pattern), why)
    for pattern, why in (
        (r"(,)", "a comma may mean a decimal point or thousands; write a point and no commas"),
        (r"(~)", "a figure marked ~ was rounded for showing and is no reading"),
        (r"^[+-] *([+-])", "there are two signs"),
        (r"\b(inf|nan)", "that is not a number"),
        (r"\d(e)[+-]?\d", "powers of ten are not read; write the number out"),
        (r"\b0(x)", "only decimal figures are read"),
        (r"\d(_)\d", "only digits and one point make a number"),
        (r"\.\d*(\.)", "there are two decimal points"),
        (r"(?<![a-z])(\.)(?!\d)", "a decimal point needs figures after it"),
        (r"/(0+)(?![\d.])", "a fraction cannot have 0 below the line"),
        (r"\d\.\d+[- ]*\d*(/)", "a decimal and a fraction do not go together"),
        (r"/\d+[- ]*\d*(/)", "there is more than one fraction"),
        (r"\d(\+)\d", "a + between figures makes it a station"),
        (r"\d +(\d+)(?! *[\d/])", "two numbers stand side by side with nothing to join them"),
        (r"([-/+:])$", "something is missing after it"),
    )
)
_READABLE_START = re.compile(rf"[+-]?\ *(?:{NUMBER}(?:\ *(?:/\ *\d+|[-\ ]\d+/\d+))?\ *)?")


def refuse_unread(typed: TypedText, own_faults: tuple[_Fault, ...] = ()) -> NoReturn:
    """Refuse a text that fits no form, for the first fault a person would point at.

    Raises
    ------
    UnreadableError
        Always.
    """
    for pattern, why in (*own_faults, *FAULTS):
        found = pattern.search(typed.text)
        if found:
            typed.refuse(why, found.start(1))
    start = _READABLE_START.match(typed.text)
    end = start.end() if start else 0
    rest = typed.text[end : end + 12]
    if not rest:
        typed.refuse("something is missing at the end", end)
    if end == 0:
        typed.refuse("it does not begin with a number", 0)
    typed.refuse(f"'{rest}' cannot be read after what stands before it", end)


def read_decimal(text: str) -> tuple[int, int]:
    """Numerator and power-of-ten denominator of a text that matched NUMBER."""
    whole, _, part = text.partition(".")
    return int(whole + part), 10 ** len(part)


def read_mixed(typed: TypedText, found: re.Match[str]) -> Fraction:
    """Value of the MIXED groups of a match.

    Raises
    ------
    UnreadableError
        If the fraction is not one that a rule or tape is divided by.
    """
    over, under = int(found["over"]), int(found["under"])
    if under == 0:
        typed.refuse("a fraction cannot have 0 below the line", found.start("under"))
    if under not in DENOMINATORS:
        typed.refuse(
            "fractions go by halves, 4ths, 8ths, 16ths, 32nds or 64ths", found.start("under")
        )
    if over >= under:
        typed.refuse("the fraction is not smaller than one", found.start("over"))
    return int(found["whole"] or 0) + Fraction(over, under)


def refuse_sign(typed: TypedText, found: re.Match[str], signed: bool) -> int:
    """Return -1 or 1 from the ``sign`` group of a match.

    Raises
    ------
    UnreadableError
        If there is a sign and the field takes none.
    """
    sign = found["sign"]
    if not sign:
        return 1
    if not signed:
        typed.refuse(f"a {'minus' if sign == '-' else 'plus'} sign is not used here", 0)
    return -1 if sign == "-" else 1


def refuse_too_large(typed: TypedText, value: int) -> int:
    """Give the value back if the book can keep it.

    Raises
    ------
    UnreadableError
        If it lies beyond a 64-bit column.
    """
    if abs(value) > LARGEST:
        typed.refuse("it is larger than the book can keep", 0)
    return value
