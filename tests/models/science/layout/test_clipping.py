"""Upright lines clipped in one sweep, against the overlay of the geometry library."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from models.science.layout.clipping import TOUCH_NM, clip_upright
from models.science.layout.cuttable_ground import open_shape
from tests.models.science.plots import chance_ground

Rows = list[tuple[int, float, float]]


def swept(shape: shapely.Geometry, across: list[float]) -> Rows:
    """Pieces as rows."""
    columns = clip_upright(shape, np.array(across, dtype=float))
    return list(zip(*(column.tolist() for column in columns), strict=True))


def overlaid(shape: shapely.Geometry, across: list[float]) -> Rows:
    """The same by the overlay of the library, line by line."""
    rows: Rows = []
    for line, x in enumerate(across):
        cut = shapely.intersection(shapely.LineString([(x, -1e13), (x, 1e13)]), shape)
        parts = [part for part in shapely.get_parts(cut) if part.geom_type == "LineString"]
        for begin, end in sorted((part.bounds[1], part.bounds[3]) for part in parts):
            if rows and rows[-1][0] == line and begin - rows[-1][2] <= TOUCH_NM:
                rows[-1] = (line, rows[-1][1], end)
            else:
                rows.append((line, begin, end))
    return rows


def agree(shape: shapely.Geometry, across: list[float]) -> None:
    """Both give the same pieces to the nanometre; slivers that the rounding eats are left out."""
    mine = [row for row in swept(shape, across) if row[2] - row[1] > 2]
    theirs = [row for row in overlaid(shape, across) if row[2] - row[1] > 2]
    assert [row[0] for row in mine] == [row[0] for row in theirs]
    assert np.allclose(np.array(mine)[:, 1:], np.array(theirs)[:, 1:], rtol=0, atol=1.5)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9), count=st.integers(1, 60))
def test_pieces_are_those_of_the_overlay(seed: int, count: int) -> None:
    """On wild ground with keep-outs and rounded clearances, wherever the lines stand."""
    shape = open_shape(chance_ground(seed))
    left, _, right, _ = shape.bounds

    agree(shape, [left + (n + 0.5) * (right - left) / count for n in range(count)])


@settings(max_examples=60, deadline=None)
@given(
    corners=st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=3, max_size=7),
    hole=st.tuples(st.integers(0, 6), st.integers(0, 6)),
)
def test_lines_through_corners_and_along_sides_agree(
    corners: list[tuple[int, int]], hole: tuple[int, int]
) -> None:
    """On a coarse grid, where lines run along sides and through corners all the time."""
    shape = shapely.make_valid(shapely.Polygon([(x * 1e9, y * 1e9) for x, y in corners]))
    x, y = hole
    shape = shapely.difference(shape, shapely.box(x * 1e9, y * 1e9, x * 1e9 + 2e9, y * 1e9 + 1e9))
    shape = shapely.MultiPolygon([p for p in shapely.get_parts(shape) if p.geom_type == "Polygon"])
    if shape.area > 1e17:
        agree(shape, [n * 5e8 for n in range(13)])


def test_a_line_along_a_side_is_in_on_either_side() -> None:
    """Limits are inclusive: lines on the left and the right edge of a square, and of a hole."""
    square = shapely.Polygon(
        [(0, 0), (4e9, 0), (4e9, 4e9), (0, 4e9)], [[(1e9, 1e9), (3e9, 1e9), (3e9, 3e9), (1e9, 3e9)]]
    )

    rows = swept(square, [0, 1e9, 2e9, 3e9, 4e9])

    whole = (0.0, 4e9)
    assert [row[1:] for row in rows if row[0] != 2] == [whole] * 4
    assert [row[1:] for row in rows if row[0] == 2] == [(0.0, 1e9), (3e9, 4e9)]


@pytest.mark.parametrize("across", [[], [-5e9], [9e9]])
def test_lines_beside_the_shape_have_no_piece(across: list[float]) -> None:
    """Nothing is cut where nothing lies."""
    assert swept(shapely.box(0, 0, 4e9, 4e9), across) == []
