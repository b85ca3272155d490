"""Comparison of bearings: what a layout costs when its lines run one way or another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from models.science.layout.cuttable_ground import Ground
from models.science.layout.driving import plan_drive
from models.science.layout.interleave import Machine
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern


@dataclass(frozen=True, slots=True)
class BearingRow:
    """Result of one bearing: how many lines, passes, turns and stubs, and their lengths.

    Attributes
    ----------
    bearing_udeg : int
        Clockwise from north. [1e-6 degree]
    lines, segments, passes, turns, lifts, stubs : int
        How many of each. [-]
    length_nm : int
        Length cut. [nm]
    stub_length_nm : int
        Length not cut for being too short. [nm]
    driven_nm : int
        Driven on passes. [nm]
    headland_nm : int
        Driven in turns. [nm]
    """

    bearing_udeg: int
    lines: int
    segments: int
    passes: int
    turns: int
    lifts: int
    stubs: int
    length_nm: int
    stub_length_nm: int
    driven_nm: int
    headland_nm: int


def compare_bearings(
    ground: Ground, pattern: LinePattern, machine: Machine, bearings_udeg: Sequence[int]
) -> tuple[BearingRow, ...]:
    """Compare layouts by bearing, a row each.

    Parameters
    ----------
    ground : Ground
        The surface. [nm]
    pattern : LinePattern
        Spacing and shortest piece; its own bearing is not looked at. [nm]
    machine : Machine
        What cuts. [nm]
    bearings_udeg : sequence of int
        Bearings to compare, clockwise from north. [1e-6 degree]

    Returns
    -------
    rows : tuple of BearingRow
        In the order of the bearings. [nm]

    Notes
    -----
    Nothing is recommended: what the fall of the ground asks for weighs more than turns
    saved. Limits are those of ``lay_lines`` and ``plan_drive``.

    Examples
    --------
    By hand: 60 x 100 ft at 16 in: 45 lines the long way, 75 across, with one leg each a pass.

    >>> from models.science.shapes.offsets import rectangle
    >>> field = Ground((rectangle(60 * 304_800_000, 100 * 304_800_000),))
    >>> rows = compare_bearings(field, LinePattern(406_400_000), Machine(), [0, 90_000_000])
    >>> [(row.passes, row.turns) for row in rows]
    [(45, 44), (75, 74)]
    """
    return tuple(
        _row(ground, replace(pattern, bearing_udeg=bearing), machine) for bearing in bearings_udeg
    )


def _row(ground: Ground, pattern: LinePattern, machine: Machine) -> BearingRow:
    """The row of one bearing."""
    layout = lay_lines(ground, pattern)
    drive = plan_drive(layout, machine)
    return BearingRow(
        bearing_udeg=pattern.bearing_udeg,
        lines=len({segment.number for segment in layout.segments}),
        segments=len(layout.segments),
        passes=len(drive.passes),
        turns=len(drive.turns),
        lifts=sum(one.lifts for one in drive.passes),
        stubs=len(layout.stubs),
        length_nm=layout.length_nm,
        stub_length_nm=layout.stub_length_nm,
        driven_nm=drive.driven_nm,
        headland_nm=drive.headland_nm,
    )
