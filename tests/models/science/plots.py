"""Grounds for tests of layouts: made from metres, from turns, and from chance."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, radians, sin
from random import Random

from models.science.layout.cuttable_ground import Ground, KeepOut
from models.science.shapes.outline import LEAST_KEEP_OUT_NM2, Outline, Trace, require_outline
from models.science.shapes.rings import PointNm

M = 10**9
FT = 304_800_000
IN = 25_400_000

Corners = Sequence[tuple[float, float]]


def point(x_m: float, y_m: float) -> PointNm:
    """A point given in metres."""
    return PointNm(round(x_m * M), round(y_m * M))


def outline(corners: Corners, turn: float = 0, shift: tuple[float, float] = (0, 0)) -> Outline:
    """An outline from metres, turned clockwise about the origin and then shifted."""
    sine, cosine = sin(radians(turn)), cos(radians(turn))
    points = [
        point(x * cosine + y * sine + shift[0], y * cosine - x * sine + shift[1])
        for x, y in corners
    ]
    return require_outline(Trace(tuple(points)), LEAST_KEEP_OUT_NM2)


def box(x: float, y: float, width: float, height: float) -> list[tuple[float, float]]:
    """Corners of an upright rectangle, counterclockwise."""
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


U_SHAPE = [(0, 0), (30, 0), (30, 20), (20, 20), (20, 8), (10, 8), (10, 20), (0, 20)]
"""A field of two arms: 30 m by 20 m with a gap of 10 m by 12 m in the top."""


def chance_corners(seed: int) -> list[tuple[float, float]]:
    """A wild but sound outline of 12 to 40 corners, of 20 to 60 m."""
    dice = Random(seed)
    count = dice.randint(12, 40)
    start = dice.uniform(0, 2 * pi)
    corners = []
    for number in range(count):
        turn = start + 2 * pi * number / count
        radius = dice.uniform(10, 30)
        corners.append((radius * cos(turn), radius * sin(turn)))
    return corners


def chance_ground(seed: int, turn: float = 0, shift: tuple[float, float] = (0, 0)) -> Ground:
    """Such an outline with up to four keep-outs, turned and shifted together."""
    dice = Random(seed + 1)
    keep_outs = []
    for _ in range(dice.randint(0, 4)):
        x, y, size = dice.uniform(-20, 20), dice.uniform(-20, 20), dice.uniform(0.5, 6)
        corners = [(x, y), (x + size, y + size / 3), (x + size / 2, y + size)]
        keep_outs.append(KeepOut(outline(corners, turn, shift)))
    return Ground((outline(chance_corners(seed), turn, shift),), tuple(keep_outs))
