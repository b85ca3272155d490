"""The scale that text and patterns of a drawing are made for, on an 11 x 17 in or A3 sheet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from models.units import NM_PER, LengthUnit
from sync.papers.asbuilt.features.course import Place
from sync.papers.asbuilt.features.feature_types import AsBuilt

SHEET_MM = (380, 240)
"""Room for the drawing on the sheet, inside its margins and beside its notes."""

_FEET_TO_AN_INCH = (5, 10, 20, 30, 40, 50, 60, 100, 200, 300, 400, 500, 1000, 2000)
_METRIC = (50, 100, 200, 250, 500, 1000, 2000, 2500, 5000, 10_000, 20_000)


@dataclass(frozen=True, slots=True)
class PlotScale:
    """Plot scale: a millimetre on the sheet is ``per_mm`` units of the drawing.

    ``low`` and ``high`` are the corners of all that has a place, in units of the drawing.
    """

    words: str
    per_mm: float
    low: tuple[float, float]
    high: tuple[float, float]


def plot_scale(job: AsBuilt) -> PlotScale:
    """Largest usual scale at which the whole job fits on the sheet."""
    per = NM_PER[LengthUnit.FT if job.is_us else LengthUnit.M]
    places = list(every_place(job)) or [Place(0, 0)]
    low = min(p.x_nm for p in places) / per, min(p.y_nm for p in places) / per
    high = max(p.x_nm for p in places) / per, max(p.y_nm for p in places) / per
    mm = NM_PER[LengthUnit.MM]
    shares = (
        (end - start) * per / mm / room
        for start, end, room in zip(low, high, SHEET_MM, strict=True)
    )
    wanted = max(shares)
    times, words = _usual(wanted, job.is_us)
    return PlotScale(words, times * mm / per, low, high)


def _usual(wanted: float, is_us: bool) -> tuple[int, str]:
    if is_us:
        feet = next((one for one in _FEET_TO_AN_INCH if one * 12 >= wanted), _FEET_TO_AN_INCH[-1])
        return feet * 12, f"1 in = {feet} ft"
    times = next((one for one in _METRIC if one >= wanted), _METRIC[-1])
    return times, f"1 : {times}"


def every_place(job: AsBuilt) -> Iterable[Place]:
    """Every place that is drawn."""
    for surface in job.surfaces:
        yield from surface.outline
        yield from (place for kept_out in surface.keep_outs for place in kept_out.ring)
    for run in job.collectors:
        yield from run.course
    for line in job.lines:
        yield from (end for end in (line.start, line.end) if end is not None)
    yield from (joint.at for joint in job.joints)
    for measured in (job.probes, job.inverts, job.utilities, job.points):
        yield from (one.at for one in measured if one.at is not None)
