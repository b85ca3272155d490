"""The plan under real fingers: it follows them, and shows its lines in their styles."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture
from crewapp.kit.look.palette import BLUE, INK, rgb

if TYPE_CHECKING:
    from tests.uidriver import UI

RING = ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))


def picture(*states: LineState, apart: float = 5.0) -> PlanPicture:
    """Lines along a rectangle, one in each state, from the bottom."""
    lines = tuple(
        PlanLine(f"S{n}", ((2.0, apart * (n + 1)), (38.0, apart * (n + 1))), state, f"S{n}")
        for n, state in enumerate(states)
    )
    return PlanPicture(RING, (), lines, apart)


@pytest.fixture
def view(ui: UI) -> Any:
    """A plan of three lines over the whole glass."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas

    shown = picture(LineState.DONE, LineState.TODAY, LineState.OUT)
    return ui.show(PlanCanvas(picture=shown))


def world(view: Any, place: tuple[float, float]) -> tuple[float, float]:
    """Return the point of the plan under a place of the glass."""
    found: tuple[float, float] = view._seen().world(place, view.center)
    return found


def test_two_fingers_enlarge_and_pull_at_once(ui: UI, view: Any) -> None:
    """Spread and moved together: each finger keeps its own point of the plan under it."""
    from tests.uidriver import Finger

    x, y = view.center
    one, other = Finger(x - 60, y).down(), Finger(x + 60, y).down()
    ui.pump(1)
    held = world(view, (x - 60, y)), world(view, (x + 60, y))
    for step in range(1, 9):
        one.to(x - 60 - 6 * step, y + 4 * step)
        other.to(x + 60 + 14 * step, y + 4 * step)
        ui.pump(1)
    now = world(view, (x - 108, y + 32)), world(view, (x + 172, y + 32))
    one.up()
    other.up()
    ui.pump(2)

    for before, after in zip(held, now, strict=True):
        assert after == pytest.approx(before, abs=0.1)
    assert view._seen().scale > view._whole().scale * 2


def test_pinch_picks_nothing_and_stops_at_the_whole_plan(ui: UI, view: Any) -> None:
    """Closed as far as fingers go, the plan is whole, not a speck, and no line was tapped."""
    from tests.uidriver import Finger

    picked: list[str] = []
    view.bind(on_pick=lambda _, key: picked.append(key))
    x, y = view.center
    one, other = Finger(x - 300, y).down(), Finger(x + 300, y).down()
    for step in range(1, 28):
        one.to(x - 300 + 10 * step, y)
        other.to(x + 300 - 10 * step, y)
        ui.pump(1)
    one.up()
    other.up()
    ui.pump(2)

    assert view._seen().scale == pytest.approx(view._whole().scale)
    assert picked == []


def test_keys_do_what_fingers_do(ui: UI, view: Any) -> None:
    """Plus, minus and All: nothing needs a pinch."""
    scales = [view._seen().scale]
    for key in (0, 0, 1, 2):
        ui.tap(view.keys[key])
        scales.append(view._seen().scale)

    assert scales[1] > scales[0]
    assert scales[2] > scales[1]
    assert scales[3] == pytest.approx(scales[1])
    assert scales[4] == pytest.approx(scales[0])


def runs(ui: UI, view: Any, number: int, at: float) -> int:
    """Return how many pixels of ink lie across one line of the plan."""
    line = view.picture.lines[number]
    x, y = view._seen().place((at, line.points[0][1]), view.center)
    return sum(sum(ui.pixel(x, y + step)) < 3 * 170 for step in range(-12, 13))


def test_line_of_today_is_heavier_and_of_its_own_colour(ui: UI, view: Any) -> None:
    """Twice as wide as a line done before, in blue; also after a zoom."""
    for _ in range(2):
        done, today = runs(ui, view, 0, 10.3), runs(ui, view, 1, 10.3)
        assert today >= 1.7 * done >= 1.7
        ui.tap(view.keys[0])
    line = view.picture.lines[1]
    place = view._seen().place((15.0, line.points[0][1]), view.center)

    assert ui.pixel(*place) == tuple(round(part * 255) for part in rgb(BLUE))


def test_planned_line_is_broken(ui: UI) -> None:
    """Along a planned line ink and paper take turns; along one that is done they don't."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas

    view = ui.show(PlanCanvas(picture=picture(LineState.PLANNED, LineState.DONE)))
    turns = []
    for line in view.picture.lines:
        y = line.points[0][1]
        places = [view._seen().place((10 + step / 10, y), view.center) for step in range(45)]
        dark = [sum(ui.pixel(*place)) < 3 * 128 for place in places]
        turns.append(sum(a != b for a, b in pairwise(dark)))

    assert turns[0] >= 4
    assert turns[1] == 0


def test_selected_line_is_heaviest(ui: UI, view: Any) -> None:
    """The line asked about is black and wide, and no other picture is made for it."""
    before = view._ink
    view.selected = "S0"
    ui.pump(2)
    line = view.picture.lines[0]
    place = view._seen().place((15.0, line.points[0][1]), view.center)

    assert view._ink is before
    assert ui.pixel(*place) == tuple(round(part * 255) for part in rgb(INK))
    assert runs(ui, view, 0, 10.3) > runs(ui, view, 1, 10.3)


def test_names_come_where_there_is_room(ui: UI) -> None:
    """200 lines on the glass: some are named; closer in, more of those seen."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas

    shown = picture(*[LineState.DONE] * 200, apart=0.1)
    view = ui.show(PlanCanvas(picture=shown, cap_mm=2.9))
    whole = [label.text for label, *_ in view._labels]
    for _ in range(6):
        ui.tap(view.keys[0])
    ui.wait(0.2)
    closer = [label.text for label, *_ in view._labels]

    assert 0 < len(whole) < 60
    assert set(closer) - set(whole)
    assert all(len(label) for label in closer)
