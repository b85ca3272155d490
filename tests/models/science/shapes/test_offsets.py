"""Outlines from a baseline, a rectangle and a circle."""

from __future__ import annotations

from math import pi

import pytest

from models.errors import CalculationInputError
from models.science.shapes.offsets import OffsetRow, circle, rectangle, trace_offsets
from models.science.shapes.outline import OutlineFaultKind, find_outline_faults, require_outline
from models.science.shapes.rings import PointNm, distance_nm
from models.science.shapes.rotated_frame import Frame
from tests.models.science.plots import FT, M, point


def rows(*measured: tuple[float, float | None, float | None]) -> list[OffsetRow]:
    """Offset rows from metres."""
    return [
        OffsetRow(
            round(station * M),
            None if left is None else round(left * M),
            None if right is None else round(right * M),
        )
        for station, left, right in measured
    ]


def test_area_between_offsets_is_by_trapezoids() -> None:
    """Widths 6, 10 and 4 m at 0, 10 and 30 m: 80 + 140 m2."""
    green = require_outline(trace_offsets(rows((0, 2, 4), (10, 5, 5), (30, 3, 1))))

    assert green.area_nm2 == 220 * 10**18


def test_both_edges_may_lie_on_one_side() -> None:
    """A strip 2 to 5 m to the right of its baseline has a left offset of -2."""
    strip = require_outline(trace_offsets(rows((0, -2, 5), (10, -2, 5))))

    assert {corner.x_nm // M for corner in strip.ring} == {2, 5}


def test_an_end_may_be_a_point_and_a_side_unmeasured() -> None:
    """Width zero at the tip makes one corner; a side that was not measured makes none."""
    leaf = require_outline(trace_offsets(rows((0, 0, 0), (5, None, 3), (8, 4, None), (20, 0, 0))))

    assert leaf.ring == (point(0, 0), point(3, 5), point(0, 20), point(-4, 8))


@pytest.mark.parametrize("bearing", [0, 37, 90, 180, 211.5, 359.999_999])
def test_baseline_may_run_anywhere(bearing: float) -> None:
    """Turned with its baseline, an outline keeps its area to the rounding of its corners."""
    turned = trace_offsets(
        rows((0, 2, 4), (10, 5, 5), (30, 3, 1)), point(500, -70), round(bearing * 1e6)
    )

    assert float(require_outline(turned).area_nm2) / 1e18 == pytest.approx(220, rel=1e-9)


def test_a_baseline_to_the_east_has_its_left_to_the_north() -> None:
    """Bearing 90 degrees: along is east, right is south."""
    frame = Frame(PointNm(0, 0), 90_000_000)

    assert frame.point(3, 7) == PointNm(7, -3)


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ([], "0 stations"),
        ([(0, 1, 1)], "it has 1 station,"),
        ([(0, 1, 1), (0, 1, 1)], "station 0.000 m (0.00 ft) follows"),
        ([(0, 1, 1), (9, 1, 1), (5, 1, 1)], "station 5.000 m (16.40 ft) follows"),
        ([(0, 1, 1), (9, -3, 1)], "left edge lies 2.000 m (6.56 ft) to the right"),
    ],
)
def test_offsets_that_make_no_outline_are_refused(
    measured: list[tuple[float, float, float]], words: str
) -> None:
    """The sentence names the station."""
    with pytest.raises(CalculationInputError) as caught:
        trace_offsets(rows(*measured))

    assert words in str(caught.value)


def test_edges_that_cross_between_stations_are_found() -> None:
    """Offsets sound at each station may still cross in between; the outline says where."""
    crossed = trace_offsets(rows((0, None, 5), (10, 4, None), (11, -6, None), (20, None, 5)))

    faults = find_outline_faults(crossed)

    assert [fault.kind for fault in faults][:1] == [OutlineFaultKind.CROSSING]


@pytest.mark.parametrize("sides", [(0, 10), (10, 0), (-1, 10)])
def test_a_rectangle_needs_two_sides(sides: tuple[int, int]) -> None:
    """A side of nothing is refused."""
    with pytest.raises(CalculationInputError):
        rectangle(*sides)


@pytest.mark.parametrize("error_nm", [10_000, 1_000_000, 50_000_000])
def test_a_circle_keeps_its_chord_error(error_nm: int) -> None:
    """Corners lie on the circle, the middles of chords inside it by no more than was stated."""
    radius = 40 * FT
    ring = circle(radius, point(3, 4), error_nm).ring
    a, b = ring[0], ring[1]
    middle = PointNm((a.x_nm + b.x_nm) // 2, (a.y_nm + b.y_nm) // 2)

    assert all(abs(distance_nm(corner, point(3, 4)) - radius) <= 1 for corner in ring)
    assert 0 < radius - distance_nm(middle, point(3, 4)) <= error_nm + 2


def test_area_of_a_circle_comes_near_its_own() -> None:
    """Short of pi r2 by two thirds of twice the chord error over the radius."""
    radius = 40 * FT
    short = 1 - float(circle(radius, chord_error_nm=1_000_000).area_nm2) / (pi * radius**2)

    assert 0 < short < 4 / 3 * 1_000_000 / radius


@pytest.mark.parametrize(("radius", "error"), [(0, 1), (M, 0), (M, M), (M, 2 * M), (10**12, 1)])
def test_a_circle_needs_a_radius_and_a_sensible_error(radius: int, error: int) -> None:
    """Neither nothing nor an error that would need more corners than are read."""
    with pytest.raises(CalculationInputError):
        circle(radius, chord_error_nm=error)
