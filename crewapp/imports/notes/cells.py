"""Reading one cell of typed-up notes: what it may hold and how it becomes a field."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from models.errors import UnreadableError
from models.queries.layout.drive_pieces import TypedPiece
from models.units import (
    parse_count,
    parse_day,
    parse_duration,
    parse_grade,
    parse_time_of_day,
    show_duration,
)
from models.units.job_units import Figures

_AMOUNTS = "a mass such as 12.4 ton, a volume such as 3.5 yd3, a length such as 250 ft"

DAY_MIN = 24 * 60
_LARGEST_ASEC10 = 36_000
"""A degree: no plane is stated worse."""

Reader = Callable[[str, Figures], dict[str, Any]]


class CellError(ValueError):
    """A cell can't be read; ``forms`` says what would be."""

    def __init__(self, why: str, forms: str) -> None:
        super().__init__(why)
        self.forms = forms


@dataclass(frozen=True, slots=True)
class Cell:
    """Column of one kind of row: its name, whether it must be filled, how it reads."""

    column: str
    read: Reader
    needed: bool = False
    forms: str = ""


@dataclass(frozen=True, slots=True)
class RowKind:
    """Word of the entry column: what it becomes and which columns it uses."""

    word: str
    kind: str
    cells: tuple[Cell, ...]
    fixed: tuple[tuple[str, Any], ...] = ()


def text(field: str) -> Reader:
    """Return words as they stand."""
    return lambda typed, _: {field: typed}


def names(field: str) -> Reader:
    """Read several names parted by blanks, commas or semicolons."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        found = [name for name in re.split(r"[\s,;]+", typed) if name]
        if not found or len(set(found)) < len(found):
            raise CellError("does not name each once", "names parted by blanks, such as S01 S04")
        return {field: tuple(found)}

    return read


TYPED_PIECES = "typed_pieces"
"""Lengths of pieces that were measured for themselves, by line; no field of an entry."""


def lines_of_pass(typed: str, figures: Figures) -> dict[str, Any]:
    """Read the lines of a pass; a piece that was measured for itself has its length behind it."""
    named = [part.partition(":") for part in re.split(r"[\s,;]+", typed) if part]
    fields = names("line_ids")(" ".join(name for name, _, _ in named), figures)
    pieces = {
        name: TypedPiece(figures.read_length(length), length)
        for name, colon, length in named
        if colon
    }
    if any(piece.length_nm <= 0 for piece in pieces.values()):
        raise CellError("has a piece without a length", "S04, or S04:19.25 where it was measured")
    return {**fields, TYPED_PIECES: pieces} if pieces else fields


def choice(field: str, *allowed: str) -> Reader:
    """Read a word of a few; blanks and hyphens may stand for underlines."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        word = re.sub(r"[\s-]+", "_", typed.strip().lower())
        if word not in allowed:
            raise CellError("is not one of the words for it", ", ".join(allowed))
        return {field: word}

    return read


def yes_no(field: str) -> Reader:
    """Read a cell as yes or no."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        word = typed.strip().lower()
        if word not in {"yes", "y", "no", "n"}:
            raise CellError("is neither yes nor no", "yes, no")
        return {field: word in {"yes", "y"}}

    return read


def read_quantity(field: str, way: str, *, typed_field: str = "") -> Reader:
    """Read a figure by one of the job's ways: depth, length, level, station, volume, mass."""
    suffix = {"volume": "pl", "mass": "ug"}.get(way, "nm")

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        value = getattr(figures, f"read_{way}")(typed)
        return {f"{field}_{suffix}": value, (typed_field or f"{field}_typed"): typed.strip()}

    return read


def refuse_unlikely_slit(reader: Reader, field: str, least_nm: int, most_nm: int) -> Reader:
    """Refuse a depth or width that no slit has, as the number pad does: a point slipped."""

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        found = reader(typed, figures)
        if not least_nm <= found[field] <= most_nm:
            raise CellError("can't be", f"more than nothing, at most {figures.depth(most_nm)}")
        return found

    return read


def without_typed_text(reader: Reader) -> Reader:
    """Leave out the text as typed, where the entry has no place for it."""

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        return {k: v for k, v in reader(typed, figures).items() if not k.endswith("_typed")}

    return read


def amount(*ways: str) -> Reader:
    """Read a mass, a volume or a length, known apart by its unit."""

    def read(typed: str, figures: Figures) -> dict[str, Any]:
        last: UnreadableError | None = None
        if not any(letter.isalpha() for letter in typed):
            raise CellError("has no unit", _AMOUNTS)  # 3 tons or 3 cubic yards?
        for way in ways:
            try:
                suffix = {"volume": "pl", "mass": "ug"}.get(way, "nm")
                value = getattr(figures, f"read_{way}")(typed)
                return {f"{way}_{suffix}": value, "amount_typed": typed.strip()}
            except UnreadableError as fault:
                last = last or fault
        assert last is not None
        raise CellError(f"can't be read: {last.context['why']}", _AMOUNTS)

    return read


def minutes(field: str) -> Reader:
    """Read a duration of at most a day."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        found = parse_duration(typed)
        if found > DAY_MIN:
            raise CellError(f"is {show_duration(found)}, longer than a day", "0 to 24 h")
        return {field: found}

    return read


def time_of_day(field: str) -> Reader:
    """Read a time of day."""
    return lambda typed, _: {field: parse_time_of_day(typed)}


def count(field: str) -> Reader:
    """Read a whole number of things."""
    return lambda typed, _: {field: parse_count(typed)}


def arc_seconds(field: str) -> Reader:
    """Read a stated error in arc seconds, to the tenth."""

    def read(typed: str, _: Figures) -> dict[str, Any]:
        forms = "arc seconds to the tenth, such as 10 or 7.5"
        try:
            tenths = Fraction(typed.strip()) * 10
        except (ValueError, ZeroDivisionError):
            raise CellError("is no number of arc seconds", forms) from None
        if tenths.denominator != 1 or not 0 <= tenths <= _LARGEST_ASEC10:
            raise CellError("can't be the error of a plane", forms)
        return {field: int(tenths)}

    return read


def grade(typed: str, _: Figures) -> dict[str, Any]:
    """Read a dialled grade into a fall over a run."""
    value = parse_grade(typed)
    return {
        "plane": "graded" if value else "level",
        "fall_nm": value.numerator,
        "run_nm": value.denominator,
    }


def iso_day(typed: str) -> str:
    """Read a day as YYYY-MM-DD.

    Raises
    ------
    CellError
        If no calendar has it, or its year is not one of 2000 to 2100.
    """
    try:
        return parse_day(typed)
    except UnreadableError as fault:
        raise CellError(str(fault.context["why"]), str(fault.context["forms"])) from None


def a_day(field: str) -> Reader:
    """Read a calendar day of the record."""
    return lambda typed, _: {field: iso_day(typed)}
