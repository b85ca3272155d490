"""The plan falls where it should, and the line under the thumb is found."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crewapp.kit.drawing.plan_picture import PlanLine, PlanPicture, Window, nearest

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
    window = Window.around(PICTURE, 300, 200).zoom(times).pan(dx, -dx)

    assert window.world(window.place((x, y), (7, 9)), (7, 9)) == pytest.approx((x, y), abs=1e-6)


@pytest.mark.parametrize(("at", "key"), [((3, 6), "a"), ((3, 13), "b"), ((3, 10), None)])
def test_nearest_line_is_picked(at: tuple[float, float], key: str | None) -> None:
    """Within reach the nearest line is taken, else none."""
    found = nearest(PICTURE, at, within=3)

    assert (found.key if found else None) == key


@given(times=st.floats(0.2, 8), x=st.floats(0, 300), y=st.floats(0, 200))
def test_place_enlarged_about_keeps_its_point(times: float, x: float, y: float) -> None:
    """What lies under the fingers' middle stays under it."""
    window = Window.around(PICTURE, 300, 200)
    after = window.zoom_about(times, (x, y), (150, 100))

    assert after.scale == pytest.approx(window.scale * times)
    assert after.world((x, y), (150, 100)) == pytest.approx(window.world((x, y), (150, 100)))


def test_paper_is_not_lost() -> None:
    """However far it is pulled, the window's centre stays on the plan."""
    window = Window.around(PICTURE, 300, 200).pan(-1e6, 1e6)

    assert window.keep_on_plan(PICTURE.bounds()).centre == (40, 0)


def test_empty_plan_has_bounds() -> None:
    """A plan without points is drawn as an empty page, not divided by zero."""
    assert Window.around(PlanPicture(), 100, 100).scale == 100
