"""Drawing on a widget's canvas: areas, edges and the four shapes of a state."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Color, Line, Mesh, SmoothEllipse, SmoothLine
from kivy.uix.widget import Widget

from crewapp.kit.look.palette import INK, PAGE, STATUS, Status
from crewapp.kit.look.theme import px, rgba
from sync.papers.drawing.primitives import Shape

Points = Sequence[tuple[float, float]]


def fill(points: Points, colour: str) -> None:
    """Fill a convex outline, given in pixels, on the canvas being written."""
    Color(*rgba(colour))
    vertices = [number for x, y in points for number in (x, y, 0.0, 0.0)]
    Mesh(vertices=vertices, indices=list(range(len(points))), mode="triangle_fan")


def edge(points: Points, colour: str, weight_mm: float, is_closed: bool = True) -> None:
    """Draw a line through points in pixels, as heavy as stated, mitred."""
    Color(*rgba(colour))
    flat = [number for point in points for number in point]
    Line(
        points=flat,
        width=max(px(weight_mm) / 2, 0.5),
        close=is_closed,
        # A mitre of an open line may run far out where the line is nearly straight.
        joint="miter" if is_closed else "bevel",
        cap="none",
    )


def box(x: float, y: float, width: float, height: float) -> list[tuple[float, float]]:
    """Return the corners of an upright rectangle."""
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def cut_box(x: float, y: float, width: float, height: float, cut: float) -> Points:
    """Return a box whose upper right corner is cut off, as on an index card."""
    cut = min(cut, width / 2, height / 2)
    return [
        (x, y),
        (x + width, y),
        (x + width, y + height - cut),
        (x + width - cut, y + height),
        (x, y + height),
    ]


def tab_box(x: float, y: float, width: float, height: float, cut: float, side: str) -> Points:
    """Return a box whose two corners away from the page are cut, as an index tab's."""
    right, top = x + width, y + height
    if side == "right":
        return [
            (right, y),
            (right, top),
            (x + cut, top),
            (x, top - cut),
            (x, y + cut),
            (x + cut, y),
        ]
    if side == "left":
        corners = [(right - cut, y), (right, y + cut), (right, top - cut), (right - cut, top)]
        return [*corners, (x, top), (x, y)]
    return [(x, top), (x, y + cut), (x + cut, y), (right - cut, y), (right, y + cut), (right, top)]


def inset(widget: Widget, by_mm: float = 0.0) -> tuple[float, float, float, float]:
    """Return the widget's x, y, width and height less an edge, in whole pixels."""
    by = px(by_mm)
    return (
        round(widget.x + by),
        round(widget.y + by),
        round(widget.width - 2 * by),
        round(widget.height - 2 * by),
    )


def shape(kind: Shape, centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw a shape of ``size`` pixels: edged in ink so that it holds on any ground."""
    drawers = {
        Shape.DISC: _disc,
        Shape.RING: _ring,
        Shape.TRIANGLE: _triangle,
        Shape.CROSSED_SQUARE: _crossed_square,
        Shape.CROSS: _cross,
    }
    drawers.get(kind, _plain_square)(centre, size, colour)


def status_shape(status: Status, centre: tuple[float, float], size: float) -> None:
    """Draw the shape of a state in its colour."""
    look = STATUS[status]
    shape(look.shape, centre, size, look.fill)


def _disc(centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw a disc with a white tick in it."""
    x, y = centre
    Color(*rgba(colour))
    SmoothEllipse(pos=(x - size / 2, y - size / 2), size=(size, size))
    tick = [(-0.24, 0.0), (-0.06, -0.2), (0.26, 0.2)]
    _stroke([(x + dx * size, y + dy * size) for dx, dy in tick], PAGE, size * 0.1)


def _ring(centre: tuple[float, float], size: float, _colour: str) -> None:
    """Draw an open ring of dashes."""
    x, y = centre
    radius, dashes = size * 0.42, 8
    for number in range(dashes):
        start = 2 * math.pi * number / dashes
        arc = [start + step * 0.5 / 5 for step in range(6)]
        points = [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in arc]
        _stroke(points, INK, size * 0.11)


def _triangle(centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw a triangle with an exclamation stroke."""
    x, y = centre
    corners = [(-0.5, -0.42), (0.5, -0.42), (0.0, 0.46)]
    points = [(x + dx * size, y + dy * size) for dx, dy in corners]
    fill(points, colour)
    _stroke([*points, points[0]], INK, size * 0.07)
    _stroke([(x, y + 0.18 * size), (x, y - 0.1 * size)], INK, size * 0.13)
    dot = size * 0.07
    fill(box(x - dot, y - 0.33 * size, 2 * dot, 2 * dot), INK)


def _crossed_square(centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw a square with a white cross in it."""
    x, y = centre
    half, arm = size * 0.46, size * 0.24
    fill(box(x - half, y - half, 2 * half, 2 * half), colour)
    _stroke([(x - arm, y - arm), (x + arm, y + arm)], PAGE, size * 0.12)
    _stroke([(x - arm, y + arm), (x + arm, y - arm)], PAGE, size * 0.12)


def _cross(centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw two crossed strokes."""
    x, y = centre
    arm = size * 0.42
    _stroke([(x - arm, y - arm), (x + arm, y + arm)], colour, size * 0.14)
    _stroke([(x - arm, y + arm), (x + arm, y - arm)], colour, size * 0.14)


def _plain_square(centre: tuple[float, float], size: float, colour: str) -> None:
    """Draw a filled square."""
    half = size * 0.46
    fill(box(centre[0] - half, centre[1] - half, 2 * half, 2 * half), colour)


def _stroke(points: Points, colour: str, width: float) -> None:
    """Draw an open line of a width in pixels with smooth edges."""
    Color(*rgba(colour))
    flat = [number for point in points for number in point]
    SmoothLine(points=flat, width=max(width / 2, 1.0), cap="round", joint="round")


class DrawnWidget(Widget):
    """A widget that draws itself anew, once a frame at most, when it has changed.

    A subclass writes ``draw`` and names in ``redraw_on`` what it depends on
    besides its place and size.
    """

    redraw_on: tuple[str, ...] = ()

    def __init__(self, **kwargs: Any) -> None:
        self.redraw = Clock.create_trigger(self._redraw, -1)
        super().__init__(**kwargs)
        for name in ("pos", "size", *self.redraw_on):
            self.fbind(name, self.redraw)
        self.redraw()

    def _redraw(self, *_: object) -> None:
        self.arrange()
        self.canvas.before.clear()
        with self.canvas.before:
            self.draw()

    def arrange(self) -> None:
        """Make or drop parts; what is made while drawing would be drawn twice."""

    def draw(self) -> None:
        """Add the instructions of this widget to the canvas being written."""
