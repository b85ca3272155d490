"""Measures on a sheet: their unit for a job, the plain number, the words."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from models.units import (
    NM_PER,
    PL_PER,
    UG_PER,
    LengthStyle,
    LengthUnit,
    MassUnit,
    VolumeUnit,
    round_half_even,
    show_length,
)
from models.units.job_units import Figures
from models.units.job_units import plain_day as plain_day
from models.units.percent import exact_percent, percent_beside_limits

if TYPE_CHECKING:
    from models.entries.bodies.loads import Delivery


class Measure(StrEnum):
    """Kind of quantity that a number on the sheet measures."""

    DEPTH = "depth"
    LENGTH = "length"
    LEVEL = "level"
    OFF = "off"
    VOLUME = "volume"
    MASS = "mass"


_UNITS: dict[Measure, tuple[tuple[str, int], tuple[str, int]]] = {
    Measure.DEPTH: (("in", NM_PER[LengthUnit.IN]), ("mm", NM_PER[LengthUnit.MM])),
    Measure.LENGTH: (("ft", NM_PER[LengthUnit.FT]), ("m", NM_PER[LengthUnit.M])),
    Measure.LEVEL: (("ft", NM_PER[LengthUnit.FT]), ("m", NM_PER[LengthUnit.M])),
    Measure.OFF: (("ft", NM_PER[LengthUnit.FT]), ("mm", NM_PER[LengthUnit.MM])),
    Measure.VOLUME: (("yd3", PL_PER[VolumeUnit.YD3]), ("m3", PL_PER[VolumeUnit.M3])),
    Measure.MASS: (("ton", UG_PER[MassUnit.TON]), ("t", UG_PER[MassUnit.TONNE])),
}
_MILLION = 10**6
"""Numbers are kept to six decimals."""


def unit_of(measure: Measure, is_us: bool) -> str:
    """Unit as it stands in a column's header."""
    return _UNITS[measure][0 if is_us else 1][0]


def printed_unit(measure: Measure, figures: Figures) -> str:
    """Unit as it is printed: with a raised three."""
    return unit_of(measure, figures.is_us).replace("3", "\u00b3")


def number(measure: Measure, value: int | Fraction | None, is_us: bool) -> float | None:
    """Value in the job's unit, to six decimals; None stays None."""
    if value is None:
        return None
    unit = _UNITS[measure][0 if is_us else 1][1]
    # Whole numbers all the way: a long day has a hundred thousand of these.
    millionths = round_half_even(value.numerator * _MILLION, value.denominator * unit)
    return millionths / _MILLION


def delivered_amount(body: Delivery) -> tuple[Measure, int]:
    """Amount of a delivery in base units, by mass, volume or length as it was measured."""
    if body.mass_ug is not None:
        return Measure.MASS, body.mass_ug
    if body.volume_pl is not None:
        return Measure.VOLUME, body.volume_pl
    return Measure.LENGTH, body.length_nm or 0


def measure_text(measure: Measure, value: int | Fraction | None, figures: Figures) -> str:
    """Value as people read it, with its unit; a dash where there is none."""
    if value is None:
        return "-"
    whole = round(value)
    if measure is Measure.OFF:
        return signed_offset(whole, figures)
    return str(getattr(figures, measure)(whole))


def number_text(measure: Measure, value: int | Fraction | None, figures: Figures) -> str:
    """Value as people read it, for a column whose header names the unit."""
    return measure_text(measure, value, figures).rsplit(" ", 1)[0] if value is not None else "-"


def bare_or_over(measure: Measure, value: int | None, figures: Figures) -> str:
    """Amount left as people read it, or by how much the plan was exceeded.

    Examples
    --------
    >>> bare_or_over(Measure.LENGTH, -1_524_000_000, Figures())
    '5.0 over'
    """
    if value is None or value >= 0:
        return number_text(measure, value, figures)
    return f"{number_text(measure, -value, figures)} over"


def left_and_over(value: int | None) -> tuple[int | None, int | None]:
    """Amount left, and amount over the plan, of which at least one is nothing."""
    return (None, None) if value is None else (max(value, 0), max(-value, 0))


def mean_depth(nm: Fraction, figures: Figures) -> str:
    """Mean of depths, in tenths of an inch or whole millimetres: a mean is no reading."""
    style = LengthStyle.IN_10 if figures.is_us else LengthStyle.MM
    return show_length(round(nm), style, unit=False)


def signed_offset(nm: int, figures: Figures) -> str:
    """Height off design with its sign: ``+0.03 ft``, ``-9 mm``."""
    style = LengthStyle.FT_100 if figures.is_us else LengthStyle.MM
    text = show_length(nm, style)
    return text if nm < 0 else f"+{text}"


def percent(part: int | Fraction, whole: int | Fraction) -> str:
    """Share as whole percent, cut away from 100 so that 100 % means all and no more.

    Examples
    --------
    >>> percent(1, 3), percent(999, 1000), percent(1, 1), percent(1001, 1000)
    ('33 %', '99 %', '100 %', '101 %')
    """
    if whole <= 0:
        return "-"
    share = Fraction(part) / Fraction(whole) * 100
    return f"{percent_beside_limits(share, high=None if share < 100 else 100)} %"


def within_limits(estimate: float | None) -> tuple[str, float | None]:
    """Percent within limits as printed and to a tenth, both cut: 89.96 is no 90.

    Examples
    --------
    >>> within_limits(89.96), within_limits(None)
    (('89 %', 89.9), ('-', None))
    """
    if estimate is None:
        return "-", None
    percent_within = exact_percent(estimate)
    return f"{percent_beside_limits(percent_within)} %", float(
        percent_beside_limits(percent_within, places=1)
    )
