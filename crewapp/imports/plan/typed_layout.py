"""Reads layouts as crews write them: spacings, bearings, legs, shapes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from crewapp.imports.plan.fields import PlanFields
from crewapp.imports.problems import PaperError
from models.errors import CrewError
from models.plan.layout import LayoutTerms
from models.plan.line import LineUse
from models.plan.pattern import SlitPattern
from models.units import parse_bearing, parse_count
from models.units.job_units import Figures

_BY = re.compile(r"\s*[xX\u00d7]\s*")


class TypedLayoutError(CrewError, ValueError):
    """A figure of a layout was typed in a form that is not read."""

    code = "laying.typed"
    sentence = "Cannot read {text!r} as {what}. These would be read: {forms}."


class NoSpacingError(CrewError, ValueError):
    """Lines were to be laid whose spacing nobody gave."""

    code = "laying.no_spacing"
    sentence = "Cannot lay {lines}: their spacing is missing. A spacing such as {form} would do."


def read_terms(
    use: LineUse,
    told: Mapping[str, str],
    figures: Figures,
    old: LayoutTerms | None = None,
    pattern: SlitPattern | None = None,
) -> dict[str, Any]:
    """Read the terms of one use from texts; what is left out stays as in ``old``.

    ``told`` may hold spacing, bearing, first ("even" serves both edges alike), least,
    machine, legs ("2 x 4 ft") and turning. Without a spacing told or standing, the
    pattern's is taken. A bearing not told is left out: who lays the lines settles it.

    Raises
    ------
    UnreadableError, TypedLayoutError
        If a text can't be read.
    NoSpacingError
        If no spacing is known.
    """
    fields: dict[str, Any] = old.model_dump() if old is not None else {"use": use}
    fields.pop("bearing_udeg", None)
    if "machine" in told:
        fields = {name: one for name, one in fields.items() if "leg" not in name}
        fields["machine_id"] = told["machine"].strip()
    readers = {
        "spacing": ("spacing_nm", figures.read_depth),
        "bearing": ("bearing_udeg", parse_bearing),
        "least": ("least_nm", figures.read_length),
        "turning": ("turning_radius_nm", figures.read_length),
    }
    for name, (stored, read) in readers.items():
        if name in told:
            fields[stored] = read(told[name])
    if "first" in told:
        is_even = told["first"].strip().lower() == "even"
        fields["first_nm"] = None if is_even else figures.read_depth(told["first"])
    if "legs" in told:
        fields |= _read_legs(told["legs"], figures)
    if "spacing_nm" not in fields and pattern is not None:
        fields["spacing_nm"] = pattern.spacing_nm
    if "spacing_nm" not in fields:
        form = "16 in" if figures.is_us else "400 mm"
        raise NoSpacingError(lines=f"{use.replace('_', ' ')}s", form=form)
    return fields


def _read_legs(text: str, figures: Figures) -> dict[str, int]:
    """Legs and their spacing: ``2 x 4 ft``, or ``1``."""
    count, *spacing = _BY.split(text.strip(), maxsplit=1)
    legs = parse_count(count)
    if legs < 1 or (legs > 1 and not spacing):
        forms = "1, 2 x 4 ft, 3 x 900 mm"
        raise TypedLayoutError(text=text, what="the legs of a machine", forms=forms)
    return {"legs": legs, "leg_spacing_nm": figures.read_length(spacing[0]) if spacing else 0}


def read_pair(text: str, figures: Figures) -> tuple[int, int]:
    """Read a place of the plane, east and north: ``10 ft, -3 ft``.

    Raises
    ------
    UnreadableError, TypedLayoutError
        If it is none.
    """
    parts = text.split(",")
    if len(parts) != 2:
        forms = "10 ft, 25 ft; 3.5 m, -1 m"
        raise TypedLayoutError(text=text, what="a place, east and north", forms=forms)
    east, north = (figures.read_level(part) for part in parts)
    return east, north


def read_sides(text: str, figures: Figures) -> tuple[int, int]:
    """Read the sides of a rectangle, across and along: ``60 ft x 100 ft``.

    Raises
    ------
    UnreadableError, TypedLayoutError
        If they are none.
    """
    parts = _BY.split(text.strip())
    if len(parts) != 2:
        forms = "60 ft x 100 ft; 18 m x 30 m"
        raise TypedLayoutError(text=text, what="the two sides of a rectangle", forms=forms)
    across, along = (figures.read_length(part) for part in parts)
    return across, along


def read_pattern(text: str, use: LineUse, spacing_nm: int, figures: Figures) -> dict[str, Any]:
    """Read a slit pattern written in one line: ``width=1 in, depth=9 in, under=1/2 in, ...``.

    Raises
    ------
    PaperError
        If a part is missing or can't be read; all of it is told at once.
    TypedLayoutError
        If a part is no name with a figure.
    """
    item = {"spacing": f"{spacing_nm // 10**6}.{spacing_nm % 10**6:06d} mm"}
    for part in text.split(","):
        name, equals, figure = part.partition("=")
        if not equals:
            forms = "width=1 in, depth=9 in, under=1/2 in"
            raise TypedLayoutError(text=part, what="a part of a slit pattern", forms=forms)
        item[name.strip().replace("-", "_").replace(" ", "_")] = figure.strip()
    reading = PlanFields(figures, f"pattern of {use.replace('_', ' ')}s")
    fields = reading.read(SlitPattern, item)
    if reading.problems:
        raise PaperError("the pattern", reading.problems)
    return fields
