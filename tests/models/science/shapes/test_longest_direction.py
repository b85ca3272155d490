"""Which way a ring is longest, beside the geometry library's own smallest rectangle."""

from __future__ import annotations

from itertools import pairwise
from math import dist

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from models.science.shapes.longest_direction import longest_direction
from models.science.shapes.offsets import circle, rectangle
from models.science.shapes.rings import PointNm
from tests.models.science.plots import U_SHAPE, M, box, outline

DEGREE = 1_000_000


@pytest.mark.parametrize("turn", [0, 17, 30, 45, 89, 90, 133])
def test_a_rectangle_is_longest_along_its_longer_sides(turn: int) -> None:
    """30 by 50 m, its long way at every bearing."""
    ring = rectangle(30 * M, 50 * M, PointNm(3 * M, 0), turn * DEGREE).ring

    found = longest_direction(ring)

    assert found.bearing_udeg == pytest.approx(turn * DEGREE % (180 * DEGREE), abs=2)
    assert found.is_longer


def test_a_notch_changes_nothing() -> None:
    """A U of 30 by 20 m lies in the rectangle of its hull, turned with it."""
    assert longest_direction(outline(U_SHAPE).ring).bearing_udeg == 90 * DEGREE
    turned = longest_direction(outline(U_SHAPE, turn=20).ring).bearing_udeg
    assert turned == pytest.approx(110 * DEGREE, abs=10)


def test_as_long_as_wide_has_no_longest_way() -> None:
    """A circle keeps the plan's north, a square one of its sides; neither is longer."""
    assert longest_direction(circle(40 * M).ring).bearing_udeg == 0
    square = longest_direction(outline(box(0, 0, 9, 9), turn=30).ring)
    assert square.bearing_udeg % (90 * DEGREE) == pytest.approx(30 * DEGREE, abs=10)
    assert not longest_direction(circle(40 * M).ring).is_longer
    assert not square.is_longer


def test_a_ring_without_ground_has_none() -> None:
    """Two points and three on a line: north, and no longer way; no error."""
    for ring in ([], [PointNm(0, 0), PointNm(5, 5)], [PointNm(n, n) for n in range(3)]):
        assert (longest_direction(ring).bearing_udeg, longest_direction(ring).is_longer) == (
            0,
            False,
        )


@given(
    st.lists(
        st.tuples(st.integers(-90, 90), st.integers(-90, 90)), min_size=3, max_size=12, unique=True
    )
)
def test_the_rectangle_is_as_small_as_the_library_finds(places: list[tuple[int, int]]) -> None:
    """Turned by the bearing found, the box round the points is within 1 % of shapely's."""
    points = shapely.MultiPoint(places)
    if points.convex_hull.area < 1:
        return
    udeg = longest_direction([PointNm(x * M, y * M) for x, y in places]).bearing_udeg

    west, south, east, north = shapely.affinity.rotate(points, udeg / DEGREE, (0, 0)).bounds
    sides = pairwise(points.minimum_rotated_rectangle.exterior.coords)
    short, long = sorted(dist(*side) for side in list(sides)[:2])

    assert (east - west) * (north - south) <= short * long * 1.0101
    assert north - south >= (east - west) * 0.989
