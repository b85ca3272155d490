"""The plan falls where it should, and the line under the thumb is found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewapp.state.plan_picture import PlanLine, PlanPicture, Window, nearest, quads

PICTURE = PlanPicture(
    outline=((0, 0), (40, 0), (40, 20), (0, 20)),
    lines=(PlanLine("a", ((0, 5), (40, 5))), PlanLine("b", ((0, 15), (40, 15)))),
)


def test_whole_plan_fits_its_box() -> None:
    """The wider side decides the scale; corners fall on the box's edge."""
    window = Window.around(PICTURE, 400, 400)

    assert window.scale == 10
    assert window.place((0, 0), (200, 200)) == (0, 100)


@given(x=st.floats(-50, 50), y=st.floats(-50, 50), times=st.floats(0.1, 10), dx=st.floats(-99, 99))
def test_place_and_world_undo_each_other(x: float, y: float, times: float, dx: float) -> None:
    """A tap finds the point that was drawn there, at any zoom and pull."""
    window = Window.around(PICTURE, 300, 200).zoomed(times).moved(dx, -dx)

    assert window.world(window.place((x, y), (7, 9)), (7, 9)) == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize(("at", "key"), [((3, 6), "a"), ((3, 13), "b"), ((3, 10), None)])
def test_nearest_line_is_picked(at: tuple[float, float], key: str | None) -> None:
    """Within reach the nearest line is taken, else none."""
    found = nearest(PICTURE, at, within=3)

    assert (found.key if found else None) == key


def test_line_becomes_a_box_of_its_width() -> None:
    """A piece of no length gives no box."""
    assert list(quads([(0, 0), (4, 0), (4, 0)], 2)) == [((0, 1), (4, 1), (4, -1), (0, -1))]


def test_empty_plan_has_bounds() -> None:
    """A plan without points is drawn as an empty page, not divided by zero."""
    assert Window.around(PlanPicture(), 100, 100).scale == 100
