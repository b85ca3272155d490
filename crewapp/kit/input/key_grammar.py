"""Grammar of each kind of field: what may be typed in it, key by key.

A text stands on the keypad only if it is the beginning of something readable,
so a key that would spoil it can be refused at once, with the reason.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from crewapp.words.translate import say

FRACTIONS = ("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")
SIXTEENTH = "+1/16"
BACK, CLEAR = "back", "clear"
LETTERS = tuple("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
_SIGNS = frozenset({"-", ".", "+", ":"})
_RUN = r"[1-9]\d{0,3}(?:\.\d?)?"
_FRACTION = r"[1357]/8|[13]/4|1/2|(?:[13579]|1[135])/16"


class KeyKind(StrEnum):
    """The kinds of field, each with a pad of its own."""

    INCHES = "inches"  # whole inches and a row of eighths
    DECIMAL = "decimal"  # tenths, feet and hundredths with a point, tons
    INTEGER = "integer"  # millimetres, counts
    ROD = "rod"  # hundredths without a point: 543 means 5.43
    STATION = "station"  # 12+34.5
    DIGITS = "digits"  # an hour or a date, zeros in front and all
    GRADE = "grade"  # percent with a point, or a ratio: 1:200
    NAME = "name"  # what stands on a ticket: TQ-40121


@dataclass(frozen=True, slots=True)
class Grammar:
    """How long and how fine a text of a kind may get."""

    kind: KeyKind
    whole_digits: int = 4
    places: int = 2
    is_signed: bool = False
    station_digits: int = 2  # digits after the plus: 2 in feet, 3 in metres
    prefix: str = ""  # letters that a name may begin with, offered as one key

    def is_beginning(self, typed: str) -> bool:
        """Whether ``typed`` can still become a readable text, or is one."""
        sign = "-?" if self.is_signed else ""
        whole = rf"(?:0|[1-9]\d{{0,{self.whole_digits - 1}}})"
        tail = rf"(?:\.\d{{0,{self.places}}})?" if self.places else ""
        n = self.station_digits
        pattern = {
            KeyKind.INCHES: rf"{sign}(?:{whole}(?:-(?:{_FRACTION}))?|(?:{_FRACTION}))?",
            KeyKind.DECIMAL: rf"{sign}(?:{whole}{tail})?",
            KeyKind.INTEGER: rf"{sign}{whole}?",
            KeyKind.GRADE: rf"(?:{whole}{tail}|1:(?:{_RUN})?)?",
            KeyKind.ROD: rf"{whole}?",
            KeyKind.DIGITS: rf"\d{{0,{self.whole_digits}}}",
            KeyKind.NAME: rf"(?:[0-9A-Z][0-9A-Z-]{{0,{self.whole_digits - 1}}})?",
            KeyKind.STATION: rf"(?:{whole}(?:\+(?:\d{{0,{n - 1}}}|\d{{{n}}}{tail}))?)?",
        }[self.kind]
        return re.fullmatch(pattern, typed, re.ASCII) is not None

    def is_complete(self, typed: str) -> bool:
        """Whether ``typed`` could be read as it stands."""
        if not typed or not self.is_beginning(typed):
            return False
        if self.kind is KeyKind.NAME:
            return typed[-1] != "-"
        if not typed[-1].isdigit():
            return False
        if self.kind is KeyKind.STATION:
            return re.search(rf"\+\d{{{self.station_digits}}}(?!\d)", typed) is not None
        return True

    def rows(self) -> tuple[tuple[str | None, str | None, str | None], ...]:
        """Return the digit block, top row first; None is a place without a key."""
        minus = "-" if self.is_signed else None
        last: dict[KeyKind, tuple[str | None, str, str | None]] = {
            KeyKind.DECIMAL: ("." if self.places else None, "0", minus),
            KeyKind.STATION: ("+", "0", "." if self.places else None),
            KeyKind.GRADE: (".", "0", ":"),
            KeyKind.NAME: ("-", "0", None),
        }
        bottom = last.get(self.kind, (minus, "0", None))
        return (("1", "2", "3"), ("4", "5", "6"), ("7", "8", "9"), bottom)

    def extra_keys(self) -> tuple[str, ...]:
        """Return the keys beside the digits: the eighths of an inch field, letters of a name."""
        if self.kind is KeyKind.NAME:
            return (*LETTERS, self.prefix) if self.prefix else LETTERS
        return (*FRACTIONS, SIXTEENTH) if self.kind is KeyKind.INCHES else ()

    def writing_keys(self) -> tuple[str, ...]:
        """Return every key that this pad draws and that writes something."""
        digits = tuple(key for row in self.rows() for key in row if key)
        return digits + self.extra_keys()

    def after(self, typed: str, key: str) -> str:
        """Return the text that ``key`` would make, readable or not."""
        if key in FRACTIONS:
            return typed + ("-" if typed[-1:].isdigit() else "") + key
        if key == SIXTEENTH:
            return _with_sixteenth(typed)
        if key == "." and typed in ("", "-") and self.kind in (KeyKind.DECIMAL, KeyKind.GRADE):
            return f"{typed}0."  # a point is never first: .5 is read as 5 when it is faint
        return typed + key

    def display_text(self, typed: str) -> str:
        """Return the text as it will be read: a rod's 543 as 5.43."""
        if self.kind is not KeyKind.ROD or not typed:
            return typed
        padded = typed.zfill(self.places + 1)
        return f"{padded[: -self.places]}.{padded[-self.places :]}" if self.places else typed


def _with_sixteenth(typed: str) -> str:
    """Return the text with 1/16 in added, or a text that can't be read."""
    found = re.fullmatch(r"(-?)(\d*?)-?(?:(\d+)/(2|4|8))?", typed, re.ASCII)
    if found is None:
        return typed + SIXTEENTH
    sign, whole, top, bottom = found.groups()
    part = Fraction(int(top), int(bottom)) if top else Fraction(0)
    more = part + Fraction(1, 16)
    return f"{sign}{whole}{'-' if whole else ''}{more.numerator}/{more.denominator}"


def refusal_reason(grammar: Grammar, typed: str, key: str) -> str:
    """Return one sentence that says why ``key`` cannot follow ``typed``."""
    if key not in grammar.writing_keys():
        return say("This field has no key {key}.", key=key)
    if grammar.kind is KeyKind.NAME:
        return _why_not_in_name(grammar, typed, key)
    if "/" in typed:
        return say("A fraction ends the number: take it back first.")
    if key in _SIGNS:
        return _why_no_sign(grammar, typed, key)
    if key in FRACTIONS or key == SIXTEENTH:
        return say("A fraction cannot follow {typed}.", typed=typed)
    return _why_no_digit(grammar, typed)


def _why_no_sign(grammar: Grammar, typed: str, key: str) -> str:
    """Return why a minus, a plus, a point or a colon cannot follow."""
    if key == "-":
        return say("A minus sign can only come first.")
    if key == ".":
        return _why_no_point(grammar, typed)
    if key == "+":
        return _why_no_plus(typed)
    return say("A ratio begins with 1: then a colon and the length in which it falls by 1.")


def _why_not_in_name(grammar: Grammar, typed: str, key: str) -> str:
    """Return why a letter, a digit or a dash cannot follow."""
    if key == "-" and not typed:
        return say("A name does not begin with a dash.")
    return say("This field takes {n:sign|signs} at the most.", n=grammar.whole_digits)


def _why_no_point(grammar: Grammar, typed: str) -> str:
    """Return why a point cannot follow."""
    if "." in typed:
        return say("There is a point already.")
    if grammar.kind is KeyKind.STATION:
        n = grammar.station_digits
        return say("A point comes after the plus and {n:digit|digits}.", n=n)
    return say("A point cannot follow {typed}.", typed=typed)


def _why_no_plus(typed: str) -> str:
    """Return why a plus cannot follow."""
    if "+" in typed:
        return say("There is a plus already.")
    return say("The plus comes after the full stations: 0+ at the start.")


def _why_no_digit(grammar: Grammar, typed: str) -> str:
    """Return why a digit cannot follow."""
    if ":" in typed:
        return say("A ratio ends with a length from 1 to 9999, with one digit after a point.")
    if "." in typed:
        return say("This field takes {n:digit|digits} after the point.", n=grammar.places)
    if "+" in typed:
        return say(
            "{n:digit follows|digits follow} the plus; then comes a point.",
            n=grammar.station_digits,
        )
    if typed.lstrip("-") == "0":
        return say("A number does not begin with 0 unless a point follows.")
    return say("This field takes {n:digit|digits} at the most.", n=grammar.whole_digits)
