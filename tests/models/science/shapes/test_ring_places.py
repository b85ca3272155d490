"""How outlines lie to each other, held against the geometry library of other people's make."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from models.science.shapes.ring_places import gap_nm, grounds_overlap, place_in_ring, runs_through
from models.science.shapes.rings import PointNm, Ring

coordinates = st.integers(-6, 6)
points = st.builds(PointNm, coordinates, coordinates)


def is_sound(ring: list[PointNm]) -> bool:
    """Whether the library takes the corners for an outline."""
    shape = shapely.Polygon(ring)
    return bool(shape.is_valid and shape.area > 0)


rings = st.lists(points, min_size=3, max_size=7, unique=True).filter(is_sound).map(tuple)


@given(ring=rings, point=points)
def test_place_of_a_point(ring: Ring, point: PointNm) -> None:
    """Inside, on the edge, outside: as the library says, on a small grid with every odd case."""
    shape, spot = shapely.Polygon(ring), shapely.Point(point)
    expected = 1 if shape.contains(spot) else 0 if shape.touches(spot) else -1

    assert place_in_ring(point, ring) == expected


@given(one=rings, other=rings)
def test_grounds_overlap_where_their_common_area_is_more_than_nothing(
    one: Ring, other: Ring
) -> None:
    """Shared edges and corners are no overlap; the same ground twice is."""
    area = shapely.Polygon(one).intersection(shapely.Polygon(other)).area

    assert grounds_overlap(one, other) == (area > 1e-9)
    assert grounds_overlap(other, one) == grounds_overlap(one, other)


@given(one=rings, other=rings, factor=st.sampled_from([1, 10**9]))
def test_gap_is_the_librarys_distance(one: Ring, other: Ring, factor: int) -> None:
    """Rounded down to the nanometre; the same from either side."""
    large = [tuple(PointNm(x * factor, y * factor) for x, y in ring) for ring in (one, other)]
    distance = shapely.Polygon(large[0]).distance(shapely.Polygon(large[1]))

    assert gap_nm(large[0], large[1]) == pytest.approx(distance, abs=1 + distance * 1e-12)
    assert gap_nm(large[0], large[1]) <= distance * (1 + 1e-12)
    assert gap_nm(large[1], large[0]) == gap_nm(large[0], large[1])


@given(start=points, end=points, ring=rings)
def test_a_line_runs_through_where_part_of_it_is_inside(
    start: PointNm, end: PointNm, ring: Ring
) -> None:
    """Along an edge, or through a corner alone, is outside."""
    line, shape = shapely.LineString([start, end]), shapely.Polygon(ring)
    inside = line.intersection(shape).difference(shape.boundary.buffer(1e-7)).length

    assert runs_through(start, end, ring) == (inside > 1e-6 or _is_inside(start, end, shape))


def _is_inside(start: PointNm, end: PointNm, shape: shapely.Polygon) -> bool:
    """A line of no length is inside where its point is."""
    return start == end and bool(shape.contains(shapely.Point(start)))


def test_a_ring_of_many_corners_is_gone_through_by_boxes() -> None:
    """Two rings of 2,000 corners, 7 apart: by hand."""
    first = tuple(PointNm(n, n * n % 7) for n in range(1000))
    first += tuple(PointNm(n, 100) for n in reversed(range(1000)))
    second = tuple(PointNm(x, y + 107) for x, y in first)

    assert gap_nm(first, second) == 7
