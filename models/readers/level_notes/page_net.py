"""A page of level notes adjusted by least squares, where it meets more points than it needs."""

from __future__ import annotations

from fractions import Fraction
from typing import Final, Literal

from models.science.levelling.adjustment import AdjustBy
from models.science.levelling.level_net import AdjustedNet, KnownLevel, NetSight, adjust_net
from models.science.levelling.level_run import ReducedRun
from models.science.levelling.uncertainty import SIGHT_NM, angle_error, reading_error, variance

LEAST_SQUARES: Final = "least squares"
"""Way to adjust a page that meets more points than it needs."""

PageAdjustment = AdjustBy | Literal["least squares"]
"""Ways to adjust a page: a share of each closing, or all readings together."""

HALF_HUNDREDTH_NM = 1_524_000
"""What a reading in feet is good to, plus or minus: half a hundredth."""

HALF_MM_NM = 500_000
"""What a reading in metres is good to, plus or minus: half a millimetre."""


def net_of(run: ReducedRun, half_width_nm: int) -> AdjustedNet:
    """Adjust every backsight and foresight of a page; points of one name are one point.

    A set-up's sights are half as long as the length booked at its foresight, or 30 m
    where none is. Intermediate sights take no part.

    Raises
    ------
    CalculationInputError
        If the page cannot be adjusted so.
    """
    known: dict[str, KnownLevel] = {}
    sights: list[NetSight] = []
    lengths = _sight_lengths(run)
    setup = 0
    for line in run.lines:
        sight = line.sight
        if sight.known_nm is not None:
            known.setdefault(sight.point, KnownLevel(sight.known_nm))
        if sight.fs_nm is not None:
            noise = _variance(half_width_nm, lengths.get(setup, SIGHT_NM))
            sights.append(NetSight(f"{setup}", sight.point, sight.fs_nm, noise))
        if sight.bs_nm is not None:
            setup += 1
            noise = _variance(half_width_nm, lengths.get(setup, SIGHT_NM))
            sights.append(NetSight(f"{setup}", sight.point, sight.bs_nm, noise))
    return adjust_net(sights, known)


def net_corrections(run: ReducedRun, net: AdjustedNet) -> tuple[int, ...]:
    """Correction of every line; an intermediate sight takes that of its set-up's foresight."""
    ahead: dict[int, int] = {}
    for line in run.lines:
        if line.sight.fs_nm is not None:
            ahead[line.setup] = round(net.levels_nm[line.sight.point] - line.elevation_nm)
    found = []
    for line in run.lines:
        point = line.sight.point
        if line.sight.bs_nm is None and line.sight.fs_nm is None:
            found.append(ahead.get(line.setup, 0))
        else:
            found.append(round(net.levels_nm[point] - line.elevation_nm))
    return tuple(found)


def _sight_lengths(run: ReducedRun) -> dict[int, int]:
    """Length of one sight of each set-up whose length is booked."""
    found: dict[int, int] = {}
    setup = 0
    for line in run.lines:
        if line.sight.fs_nm is not None and line.sight.distance_nm is not None:
            found[setup] = line.sight.distance_nm // 2
        setup += line.sight.bs_nm is not None
    return found


def _variance(half_width_nm: int, sight_nm: int) -> Fraction:
    """Variance of a reading at the end of a sight, its direction off by ten arc seconds."""
    return variance(
        {reading_error("reading", half_width_nm): 1, angle_error("sight", None): sight_nm}
    )
