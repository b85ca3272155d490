"""Stations along the foot of a profile: round steps, never nearer than they can be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from models.units.job_units import Figures
from models.units.spec import FOOT_NM, METRE_NM
from sync.papers.drawing.primitives import Anchor, Line, Primitive, Text, Tone, text_width_mm

APART = 1.3
"""Least distance between two labels, in widths of one."""
_STEPS_US = tuple(count * FOOT_NM for count in (10, 20, 25, 50, 100, 200, 500, 1000, 5000))
_STEPS_SI = tuple(count * METRE_NM for count in (5, 10, 20, 50, 100, 200, 500, 1000, 5000))


def draw_stations(
    from_nm: int,
    to_nm: int,
    x: Callable[[float], float],
    figures: Figures,
    levels_mm: tuple[float, float],
    cap_mm: float,
) -> Iterator[Primitive]:
    """Ticks and labels; the first and last station always have theirs.

    ``levels_mm`` are the baseline of the labels and the line the ticks hang from.
    """
    width = APART * text_width_mm(figures.station(to_nm), cap_mm)
    for station in stations_to_label(from_nm, to_nm, x, figures.is_us, width):
        at = x(station)
        yield Line((at, levels_mm[1]), (at, levels_mm[1] - 0.8), 0.25, Tone.RULE)
        yield Text((at, levels_mm[0]), figures.station(station), cap_mm, Anchor.MIDDLE)


def stations_to_label(
    from_nm: int, to_nm: int, x: Callable[[float], float], is_us: bool, apart_mm: float
) -> list[int]:
    """Stations that get a label: both ends, and round ones at least ``apart_mm`` from others."""
    ends = [from_nm] if to_nm == from_nm else [from_nm, to_nm]
    steps = _STEPS_US if is_us else _STEPS_SI
    per_nm = x(from_nm + METRE_NM) - x(from_nm)
    wide_enough = [step for step in steps if step * per_nm / METRE_NM >= apart_mm]
    if not wide_enough:
        return ends
    step = wide_enough[0]
    rounds = range((from_nm // step + 1) * step, to_nm, step)
    inner = [one for one in rounds if all(abs(x(one) - x(end)) >= apart_mm for end in ends)]
    return sorted([*ends, *inner])
