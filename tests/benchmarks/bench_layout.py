"""What a layout costs beside the bare intersection it needs.

Run: python -m pytest tests/benchmarks/bench_layout.py --benchmark-only
"""

from __future__ import annotations

from functools import cache
from math import cos, pi, sin
from typing import Any

import numpy as np
import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from models.science.layout.cuttable_ground import ARC_SEGMENTS, Ground, KeepOut
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern
from models.science.shapes.outline import Outline, Trace, require_outline
from models.science.shapes.rings import PointNm

METRE_NM = 10**9
LINES = 1_000
CORNERS = 500
BEARING_UDEG = 37_000_000


def rosette(radius_m: float, corners: int, at: tuple[float, float] = (0, 0)) -> Outline:
    """A wavy ring of so many corners about a place."""
    turns = (2 * pi * number / corners for number in range(corners))
    points = tuple(
        PointNm(
            round((at[0] + radius_m * (1 + 0.15 * cos(7 * turn)) * cos(turn)) * METRE_NM),
            round((at[1] + radius_m * (1 + 0.15 * cos(7 * turn)) * sin(turn)) * METRE_NM),
        )
        for turn in turns
    )
    return require_outline(Trace(points))


@cache
def field() -> tuple[Ground, LinePattern]:
    """A field of 500 corners with 20 keep-outs, and a spacing that makes 1,000 lines of it."""
    keep_outs = tuple(
        KeepOut(
            rosette(2.0, 24, (60 * cos(2 * pi * n / 20), 60 * sin(2 * pi * n / 20))), METRE_NM // 5
        )
        for n in range(20)
    )
    ground = Ground((rosette(100.0, CORNERS),), keep_outs, METRE_NM // 2)
    wide = lay_lines(ground, LinePattern(METRE_NM, BEARING_UDEG)).width_nm
    return ground, LinePattern(wide // LINES, BEARING_UDEG, 300_000_000)


def bare_shape() -> shapely.Geometry:
    """The same ground made with shapely alone."""
    ground, _ = field()
    edge = shapely.polygons(np.array(ground.outlines[0].ring, dtype=float))
    inner = shapely.buffer(edge, -ground.setback_nm, quad_segs=ARC_SEGMENTS)
    rings = [np.array(keep_out.outline.ring, dtype=float) for keep_out in ground.keep_outs]
    heads = [shapely.polygons(ring) for ring in rings]
    barred = shapely.buffer(heads, METRE_NM // 5, quad_segs=ARC_SEGMENTS)
    return shapely.difference(inner, shapely.union_all(barred))


def bare_lines() -> np.ndarray:
    """As many lines at the same bearing across the same ground."""
    _, pattern = field()
    angle = BEARING_UDEG / 1e6 * pi / 180
    along = np.array([sin(angle), cos(angle)])
    across = np.array([cos(angle), -sin(angle)])
    places = (np.arange(LINES) - (LINES - 1) / 2)[:, None] * pattern.spacing_nm * across
    reach = along * 200 * METRE_NM
    return shapely.linestrings(np.stack([places - reach, places + reach], axis=1))


def upright(geometry: Any) -> Any:
    """A shape or lines turned so that lines stand upright, where the overlay is fastest."""
    angle = BEARING_UDEG / 1e6 * pi / 180
    turn = np.array([[cos(angle), sin(angle)], [-sin(angle), cos(angle)]])
    return shapely.transform(geometry, lambda points: points @ turn)


def test_bare_intersection(benchmark: BenchmarkFixture) -> None:
    """The bare call as one would first write it: line by line, as they lie."""
    lines, shape = bare_lines(), bare_shape()

    inside = benchmark.pedantic(
        shapely.intersection, args=(lines, shape), rounds=5, warmup_rounds=1
    )

    assert len(inside) == LINES


def test_bare_intersection_at_once_and_upright(benchmark: BenchmarkFixture) -> None:
    """The bare call at its best: all lines as one geometry, upright, with the finished ground.

    It makes no ground, names nothing and no longer tells the lines apart.
    """
    lines, shape = upright(shapely.multilinestrings(bare_lines())), upright(bare_shape())

    inside = benchmark.pedantic(
        shapely.intersection, args=(lines, shape), rounds=15, warmup_rounds=1
    )

    assert shapely.get_num_geometries(inside) > LINES


@pytest.mark.ratio(to="test_bare_intersection", at_most=1.3)
@pytest.mark.ratio(to="test_bare_intersection_at_once_and_upright", at_most=1.3)
def test_lay_a_thousand_lines(benchmark: BenchmarkFixture) -> None:
    """From outline, setback and keep-outs to named pieces and stubs."""
    ground, pattern = field()

    layout = benchmark.pedantic(lay_lines, args=(ground, pattern), rounds=15, warmup_rounds=1)

    assert abs(layout.line_count - LINES) <= 1
    assert len(layout.segments) > LINES
