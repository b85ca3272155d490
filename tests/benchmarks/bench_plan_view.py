"""Frames of a plan of 2,000 lines while it is pulled and enlarged, drawn by the processor.

The baseline is the same lines as one bare mesh of one-pixel lines, moved by a matrix.
30 frames a second leave 33.3 ms for each.
"""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, Any

import pytest

from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture

if TYPE_CHECKING:
    from tests.uidriver import UI

FRAME_MS = 33.3
LINES, LONG_M, APART_M = 2000, 90.0, 0.4


def big_plan() -> PlanPicture:
    """2,000 lines in three fields side by side, one in a hundred out, a tenth of today."""
    states = [LineState.DONE, LineState.PLANNED, LineState.TODAY, LineState.PLANNED]
    lines = []
    for number in range(LINES):
        block, row = divmod(number, 667)
        x, y = block * (LONG_M + 5), row * APART_M
        state = LineState.OUT if number % 100 == 7 else states[number // 100 % 4]
        points = ((x, y), (x + LONG_M, y + 3.0 * math.sin(block)))
        lines.append(PlanLine(f"S{number:04d}", points, state, f"S{number:04d}"))
    wide, high = 3 * (LONG_M + 5), 667 * APART_M
    ring = ((-2.0, -2.0), (wide, -2.0), (wide, high + 4), (-2.0, high + 4))
    box = ((30.0, 40.0), (38.0, 40.0), (38.0, 46.0), (30.0, 46.0))
    return PlanPicture(ring, (box,), tuple(lines), APART_M)


def draw(ui: UI) -> None:
    """Draw one whole frame and wait until its pixels are there."""
    from kivy.core.window import Window
    from kivy.graphics.opengl import GL_RGB, GL_UNSIGNED_BYTE, glReadPixels

    Window.canvas.ask_update()
    ui.pump(1)
    glReadPixels(1, 1, 1, 1, GL_RGB, GL_UNSIGNED_BYTE)


@pytest.fixture
def view(ui: UI) -> Any:
    """The plan over the whole glass, enlarged twice."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas

    view = ui.show(PlanCanvas(picture=big_plan(), cap_mm=2.9))
    ui.tap(view.keys[0])
    ui.tap(view.keys[0])
    return view


def bare(ui: UI, step: Any) -> Any:
    """Show the same lines as one bare mesh; return what moves it by one frame."""
    from kivy.graphics import Color, Mesh, PopMatrix, PushMatrix, Scale, Translate
    from kivy.uix.widget import Widget

    widget = ui.show(Widget())
    vertices: list[float] = []
    for line in big_plan().lines:
        for x, y in line.points:
            vertices += (x * 6, y * 6, 0.0, 0.0)
    with widget.canvas:
        Color(0, 0, 0, 1)
        PushMatrix()
        moved, larger = Translate(0, 0), Scale(1, 1, 1)
        Mesh(vertices=vertices, indices=list(range(2 * LINES)), mode="lines")
        PopMatrix()

    def frame() -> None:
        step(moved, larger)
        draw(ui)

    return frame


@pytest.mark.limit(at_most_ms=FRAME_MS)
@pytest.mark.ratio(to="test_pull_bare_mesh", at_most=3.0)
def test_pull(benchmark: Any, ui: UI, view: Any) -> None:
    """One finger pulls the paper to and fro, a frame each step."""
    from tests.uidriver import Finger

    finger = Finger(*view.center).down()
    ways = itertools.cycle([*range(0, 300, 12), *range(300, 0, -12)])

    def step() -> None:
        way = next(ways)
        finger.to(view.center_x + way, view.center_y + way / 2)
        draw(ui)

    benchmark(step)
    finger.up()


@pytest.mark.limit(at_most_ms=FRAME_MS)
@pytest.mark.ratio(to="test_enlarge_bare_mesh", at_most=3.0)
def test_enlarge(benchmark: Any, ui: UI, view: Any) -> None:
    """Two fingers enlarge and pull at once, a frame each step."""
    from tests.uidriver import Finger

    one = Finger(view.center_x - 150, view.center_y).down()
    other = Finger(view.center_x + 150, view.center_y).down()
    ways = itertools.cycle([*range(0, 120, 6), *range(120, 0, -6)])

    def step() -> None:
        way = next(ways)
        one.to(view.center_x - 150 - way, view.center_y + way)
        other.to(view.center_x + 150 + way, view.center_y - way)
        draw(ui)

    benchmark(step)
    one.up()
    other.up()


def test_pull_bare_mesh(benchmark: Any, ui: UI) -> None:
    """The bare mesh, pulled."""
    ways = itertools.cycle([*range(0, 300, 12), *range(300, 0, -12)])

    def move(moved: Any, larger: Any) -> None:
        moved.xy = (next(ways), 0)

    benchmark(bare(ui, move))


def test_enlarge_bare_mesh(benchmark: Any, ui: UI) -> None:
    """The bare mesh, enlarged."""
    ways = itertools.cycle([*range(100, 200, 5), *range(200, 100, -5)])

    def move(moved: Any, larger: Any) -> None:
        larger.xyz = (next(ways) / 100, next(ways) / 100, 1)

    benchmark(bare(ui, move))


@pytest.mark.limit(at_most_ms=100)
def test_picture_comes_new(benchmark: Any, ui: UI, view: Any) -> None:
    """Another picture of as many lines: until it is on the glass."""
    pictures = itertools.cycle([big_plan(), big_plan()])

    def show() -> None:
        view.picture = next(pictures)
        view.redraw()
        draw(ui)

    benchmark.pedantic(show, rounds=10)


@pytest.mark.limit(at_most_ms=20)
def test_line_under_a_tap(benchmark: Any) -> None:
    """The nearest of all lines to a tap."""
    from crewapp.kit.drawing.plan_picture import nearest

    picture = big_plan()
    picture.boxes  # noqa: B018 - made at the first tap, kept for the next
    found = benchmark(nearest, picture, (40.0, 133.1), 1.0)

    assert found is not None
