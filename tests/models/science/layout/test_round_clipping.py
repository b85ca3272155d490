"""Circles and corridors are cut out of lines by their radius: not nearer, not farther."""

from __future__ import annotations

from math import hypot

from hypothesis import given
from hypothesis import strategies as st

from models.science.layout.clipping import Pieces
from models.science.layout.cuttable_ground import Ground, RoundKeepOut
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LinePattern
from models.science.layout.round_clipping import clip_round
from models.science.shapes.geometry_library import numpy
from models.science.shapes.offsets import rectangle
from models.science.shapes.rings import PointNm

M, MM = 10**9, 10**6
NEAR = st.integers(-3 * M, 3 * M)
LONG_NM = 20 * M


def one_line(across_nm: int, corners: list[PointNm], reach_nm: int) -> list[tuple[int, int]]:
    """Return what is left of a long upright line, as whole nanometres."""
    line = Pieces(numpy.array([0]), numpy.array([-float(LONG_NM)]), numpy.array([float(LONG_NM)]))
    left = clip_round(line, [across_nm], [(corners, reach_nm)])
    return [(int(a), int(b)) for a, b in zip(left.begins, left.ends, strict=True)]


@given(NEAR, st.builds(PointNm, NEAR, NEAR), st.integers(1, 2 * M))
def test_no_place_is_nearer_than_the_radius_and_a_nanometre_more_would_be(
    across_nm: int, middle: PointNm, radius_nm: int
) -> None:
    """Squares of whole numbers are compared, so nothing is rounded in the proof."""
    left = one_line(across_nm, [middle], radius_nm)
    off_nm = across_nm - middle.x_nm
    ends = [end for piece in left for end in piece if abs(end) != LONG_NM]

    assert (len(left) == 1) == (abs(off_nm) >= radius_nm)
    for end in ends:
        far_nm = abs(end - middle.y_nm)
        assert off_nm**2 + far_nm**2 >= radius_nm**2
        assert off_nm**2 + (far_nm - 1) ** 2 < radius_nm**2


@given(NEAR, st.builds(PointNm, NEAR, NEAR), st.builds(PointNm, NEAR, NEAR), st.integers(MM, M))
def test_no_place_is_nearer_to_a_course_than_its_reach(
    across_nm: int, start: PointNm, end: PointNm, reach_nm: int
) -> None:
    """At each end a line is as far from the course as is asked, to what a float tells apart."""
    for low, high in one_line(across_nm, [start, end], reach_nm):
        for along in (low, high):
            if abs(along) != LONG_NM:
                assert abs(off_course_nm(PointNm(across_nm, along), start, end) - reach_nm) < 10


def off_course_nm(place: PointNm, start: PointNm, end: PointNm) -> float:
    """Return the distance from a place to a straight course."""
    way = end.x_nm - start.x_nm, end.y_nm - start.y_nm
    square = way[0] ** 2 + way[1] ** 2
    off = place.x_nm - start.x_nm, place.y_nm - start.y_nm
    share = min(1, max(0, (off[0] * way[0] + off[1] * way[1]) / square)) if square else 0
    return hypot(off[0] - share * way[0], off[1] - share * way[1])


def test_a_line_that_only_touches_is_whole() -> None:
    """Exactly at the radius of a circle, and at the reach of a corridor beside it."""
    course = [PointNm(0, -M), PointNm(0, M)]

    assert one_line(M, [PointNm(0, 0)], M) == [(-LONG_NM, LONG_NM)]
    assert one_line(M, course, M) == [(-LONG_NM, LONG_NM)]
    assert one_line(M - 1, course, M)[0][1] <= -M


def test_heads_of_a_sports_field_take_half_a_metre_each() -> None:
    """By hand: 0.250 m about a head on the line, two heads on each of two lines, 2 x 0.500 m."""
    heads = [PointNm(x * M, y) for x in (20, 80) for y in (16_200 * MM, 47_800 * MM)]
    rounds = tuple(RoundKeepOut((at,), 100 * MM, 150 * MM) for at in heads)
    field = Ground((rectangle(100 * M, 64 * M),), (), 500 * MM, rounds)
    pattern = LinePattern(400 * MM, 90_000_000)

    plain = lay_lines(Ground(field.outlines, (), 500 * MM), pattern)
    laid = lay_lines(field, pattern)

    assert plain.line_count == 158
    assert plain.length_nm == 15_642 * M
    assert plain.length_nm - laid.length_nm == 2 * M
    assert len(laid.segments) == 158 + 4


@given(st.integers(0, 359_999_999), st.builds(PointNm, NEAR, NEAR))
def test_at_any_bearing_a_head_is_kept_clear(bearing_udeg: int, head: PointNm) -> None:
    """Turned lines keep off by the radius, to what rounding of their ends to the plane changes."""
    at = PointNm(head.x_nm + 10 * M, head.y_nm + 10 * M)
    ground = Ground((rectangle(20 * M, 20 * M),), (), 0, (RoundKeepOut((at,), M, 200 * MM),))

    laid = lay_lines(ground, LinePattern(400 * MM, bearing_udeg))

    near = [off_course_nm(at, one.start, one.end) for one in laid.segments]
    assert min(near) >= 1200 * MM - 3
