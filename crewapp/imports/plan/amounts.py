"""Stored figures and how a plan file writes each: by the end of the field's name."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from models.errors import UnreadableError
from models.units import (
    has_grade_unit,
    parse_area,
    parse_bearing,
    parse_density,
    parse_duration,
    parse_flow,
    parse_grade,
    parse_latitude,
    parse_longitude,
    parse_share,
    parse_water_rate,
    round_half_even,
)
from models.units.job_units import Figures

_HAS_UNIT = re.compile(r"[A-Za-z'\"\u2019\u201d\u2032\u2033]")
_DECIMAL = re.compile(r"(\d{1,12})(?:\.(\d{1,9}))?")


@dataclass(frozen=True, slots=True)
class Amount:
    """Way of writing a figure: how it is read, and what would be accepted.

    A ``bare`` one needs no unit and may be a number.
    """

    read: Callable[[Figures, str], int]
    forms: str
    bare: bool = False
    needs_unit: bool = True


def _without_figures(read: Callable[[str], int]) -> Callable[[Figures, str], int]:
    """A reader that does not ask for the job's units."""
    return lambda _, text: read(text)


def _decimal(text: str, what: str, scale: int, forms: str) -> int:
    """A plain decimal in whole parts of ``scale``."""
    found = _DECIMAL.fullmatch(text.strip())
    if found is None:
        why = "it is no plain number above zero"
        raise UnreadableError(text=text[:40], what=what, why=why, place=1, forms=forms)
    whole, part = found[1], found[2] or ""
    return round_half_even(int(whole + part) * scale, 10 ** len(part))


def _roughness(_: Figures, text: str) -> int:
    return _decimal(text, "Manning's n", 1_000_000, "0.012")


GRADE_FORMS = 'a grade with its unit, such as "1%", "0.5 %", "1:200" or "1/8 in/ft"'


def _fall(_: Figures, text: str) -> int:
    """A grade in whole millionths; one without a unit may be a fraction or a percentage."""
    if not has_grade_unit(text):
        why = "it has no unit"
        raise UnreadableError(text=text[:40], what="a grade", why=why, place=1, forms=GRADE_FORMS)
    grade = parse_grade(text)
    return round_half_even(grade.numerator * 1_000_000, grade.denominator)


def _price(_: Figures, text: str) -> int:
    return _decimal(text, "a price", 100, "32.50")


_LENGTH = 'a text with its unit, such as "9 in", "97.62 ft" or "230 mm"'

AMOUNTS: dict[str, Amount] = {
    "_nm": Amount(Figures.read_level, _LENGTH),
    "_pl": Amount(Figures.read_volume, 'a text with its unit, such as "0.5 yd3" or "0.4 m3"'),
    "_ug": Amount(Figures.read_mass, 'a text with its unit, such as "38 ton" or "34 t"'),
    "_permille": Amount(_without_figures(parse_share), 'a share, such as "10 %"', needs_unit=False),
    "_g_per_m3": Amount(
        _without_figures(parse_density),
        'a density, such as "98 lb/ft3" or "1.57 t/m3"',
        needs_unit=False,
    ),
    "_um_per_h": Amount(
        _without_figures(parse_water_rate),
        'a rate of water, such as "12 in/h" or "300 mm/h"',
        needs_unit=False,
    ),
    "_ul_per_s": Amount(
        _without_figures(parse_flow), 'a flow, such as "80 gal/min" or "5 L/s"', needs_unit=False
    ),
    "_mm2": Amount(
        _without_figures(parse_area), 'an area, such as "6400 ft2" or "600 m2"', needs_unit=False
    ),
    "_udeg": Amount(
        _without_figures(parse_bearing), 'a bearing, such as "37.5 deg" or "N 30 E"', bare=True
    ),
    "_millionths": Amount(_roughness, "Manning's n, such as 0.012", bare=True),
    "_cents": Amount(_price, 'a price, such as "32.50"', bare=True),
    "_min": Amount(_without_figures(parse_duration), 'a duration, such as "1 h" or "90 min"'),
}
"""End of a stored field's name to the way it is written."""

OWN_AMOUNTS: dict[str, tuple[str, Amount]] = {
    "lon": (
        "lon_ndeg",
        Amount(_without_figures(parse_longitude), "a longitude, such as -93.625", bare=True),
    ),
    "lat": (
        "lat_ndeg",
        Amount(_without_figures(parse_latitude), "a latitude, such as 41.5868", bare=True),
    ),
    "lasts": ("rain_min", AMOUNTS["_min"]),
    "pipe_fall": ("pipe_fall_millionths", Amount(_fall, GRADE_FORMS, needs_unit=False)),
}
"""Fields that a plan names in its own way: name to stored name and the way it is written."""

STATION_FORMS = 'a station such as "1+25.5", or a text with its unit, such as "125.5 ft"'


_NEVER_RAW = ("_nm", "_pl", "_ug")


def is_raw(stored: str) -> bool:
    """Whether a field may also be given as it is stored, under its stored name.

    Lengths, volumes and masses may not: a slip of a thousand would go unseen.
    """
    return not stored.endswith(_NEVER_RAW) and (
        bool(stored_suffix(stored)) or stored in {name for name, _ in OWN_AMOUNTS.values()}
    )


def stored_suffix(stored: str) -> str:
    """End of a stored field's name that its figure is read by, or nothing."""
    return next((suffix for suffix in AMOUNTS if stored.endswith(suffix)), "")


def stored_figure_text(value: Any, amount: Amount) -> str | None:
    """Return a stored figure as text, or None where it is no figure of that kind."""
    if isinstance(value, str):
        return value if not amount.needs_unit or amount.bare or _HAS_UNIT.search(value) else None
    if amount.bare and isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)
    return None
