"""Draws a list of primitives on the canvas: what the PDF draws on paper."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import Any

from kivy.core.text import Label as CoreLabel
from kivy.graphics import Color, PopMatrix, PushMatrix, Rectangle, Rotate, Translate
from kivy.graphics.tesselator import Tesselator
from kivy.graphics.vertex_instructions import Mesh
from kivy.properties import ObjectProperty

from crewapp.kit.look.paint import DrawnWidget, edge, fill, shape
from crewapp.kit.look.palette import INK, PAGE, TONES
from crewapp.kit.look.theme import font_for, font_px, px, rgba
from sync.papers.drawing.primitives import (
    DASH_IN_WEIGHTS,
    Anchor,
    Dash,
    Drawing,
    Line,
    Mark,
    Point,
    Polygon,
    Polyline,
    Primitive,
    Shape,
    Text,
)

# Direction of each arrow, in quarter turns counter-clockwise from pointing right.
_QUARTERS = {
    Shape.ARROW_RIGHT: 0,
    Shape.ARROW_UP: 1,
    Shape.ARROW_LEFT: 2,
    Shape.ARROW_DOWN: 3,
}


def dashes(points: Sequence[Point], on: float, off: float) -> Iterator[list[Point]]:
    """Give the drawn pieces of a dashed line, the pattern carried round corners."""
    left, is_on, piece = on, True, [points[0]]
    for start, end in zip(points, points[1:], strict=False):
        length = math.dist(start, end)
        done = 0.0
        while length - done > left:
            done += left
            part = done / length
            at = (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)
            if is_on:
                yield [*piece, at]
            is_on, piece = not is_on, [at]
            left = on if is_on else off
        left -= length - done
        piece.append(end)
    if is_on and len(piece) > 1:
        yield piece


@lru_cache(maxsize=512)
def text_texture(text: str, size_px: float, is_bold: bool) -> Any:
    """Return the text as a white texture, to be coloured when it is drawn."""
    label = CoreLabel(text=text, font_size=size_px, bold=is_bold, font_name=font_for(text))
    label.refresh()
    return label.texture


def fill_any(points: Sequence[Point], colour: str) -> None:
    """Fill an outline of any shape, given in pixels."""
    tess = Tesselator()
    tess.add_contour([number for point in points for number in point])
    if len(points) < 3 or not tess.tesselate():
        return  # an area that crosses itself has no inside to fill
    Color(*rgba(colour))
    for vertices, indices in tess.meshes:
        Mesh(vertices=vertices, indices=indices, mode="triangle_fan")


class CanvasPen:
    """Draws primitives on the canvas being written, from an origin in pixels."""

    def __init__(self, left: float, low: float, px_per_mm: float) -> None:
        self.left, self.low, self.scale = left, low, px_per_mm

    def draw(self, items: Sequence[Primitive]) -> None:
        """Draw all of them, the first lowest."""
        ways: dict[type, Callable[[Any], None]] = {
            Line: self._line,
            Polyline: self._polyline,
            Polygon: self._polygon,
            Text: self._text,
            Mark: self._mark,
        }
        for item in items:
            ways[type(item)](item)

    def _at(self, point: Point) -> Point:
        return self.left + point[0] * self.scale, self.low + point[1] * self.scale

    def _line(self, item: Line) -> None:
        self._stroke([item.start, item.end], item.weight_mm, item.tone, item.dash)

    def _polyline(self, item: Polyline) -> None:
        points = [*item.points, item.points[0]] if item.is_closed else list(item.points)
        self._stroke(points, item.weight_mm, item.tone, item.dash)

    def _stroke(self, points: list[Point], weight_mm: float, tone: Any, dash: Dash) -> None:
        places = [self._at(point) for point in points]
        weight = weight_mm * self.scale / px(1.0)
        pattern = DASH_IN_WEIGHTS[dash]
        if pattern is None:
            edge(places, TONES[tone], weight, False)
            return
        unit = weight_mm * self.scale
        for piece in dashes(places, pattern[0] * unit, pattern[1] * unit):
            edge(piece, TONES[tone], weight, False)

    def _polygon(self, item: Polygon) -> None:
        fill_any([self._at(point) for point in item.points], TONES[item.fill])

    def _text(self, item: Text) -> None:
        size_px = font_px(item.cap_mm) * self.scale / px(1.0)
        texture = text_texture(item.text, round(size_px, 1), item.is_bold)
        if texture is None:
            return
        wide, high = texture.size
        dx = {Anchor.LEFT: 0.0, Anchor.MIDDLE: -wide / 2, Anchor.RIGHT: -float(wide)}[item.anchor]
        descent = high * 0.21  # Roboto's descent over its line height
        x, y = self._at(item.at)
        PushMatrix()
        Translate(x, y, 0)
        if item.angle_deg:
            Rotate(angle=item.angle_deg, axis=(0, 0, 1))
        if item.has_halo:
            Color(*rgba(PAGE))
            Rectangle(pos=(dx, -descent * 0.5), size=(wide, high * 0.84))
        Color(*rgba(TONES[item.tone]))
        Rectangle(texture=texture, pos=(round(dx), round(-descent)), size=texture.size)
        PopMatrix()

    def _mark(self, item: Mark) -> None:
        centre, size = self._at(item.at), item.size_mm * self.scale
        if item.shape in _QUARTERS:
            self._arrow(centre, size, _QUARTERS[item.shape], TONES[item.tone])
        elif item.is_filled:
            shape(item.shape, centre, size, TONES[item.tone])
        else:
            shape(Shape.RING, centre, size, INK)

    def _arrow(self, centre: Point, size: float, quarters: int, colour: str) -> None:
        turn = quarters * math.pi / 2
        corners = [(0.5, 0.0), (-0.4, 0.45), (-0.4, -0.45)]
        points = [
            (
                centre[0] + size * (x * math.cos(turn) - y * math.sin(turn)),
                centre[1] + size * (x * math.sin(turn) + y * math.cos(turn)),
            )
            for x, y in corners
        ]
        fill(points, colour)


class DrawingCanvas(DrawnWidget):
    """Shows a ``drawing``, fitted into its box and centred.

    A layout function is told the room there is: ``layout`` is called with the
    width and height in mm and gives the drawing. Set either one.
    """

    drawing = ObjectProperty(None, allownone=True)
    layout = ObjectProperty(None, allownone=True)
    redraw_on = ("drawing", "layout")

    def fitted_drawing(self) -> Drawing | None:
        """Return the drawing laid out for this size."""
        if self.layout is not None and self.width > 1 and self.height > 1:
            made: Drawing = self.layout(self.width / px(1.0), self.height / px(1.0))
            return made
        drawn: Drawing | None = self.drawing
        return drawn

    def draw(self) -> None:
        """Draw the primitives at the largest scale that fits."""
        drawing = self.fitted_drawing()
        if drawing is None or drawing.width_mm <= 0 or drawing.height_mm <= 0:
            return
        scale = min(self.width / drawing.width_mm, self.height / drawing.height_mm)
        left = self.center_x - drawing.width_mm * scale / 2
        low = self.center_y - drawing.height_mm * scale / 2
        CanvasPen(left, low, scale).draw(drawing.items)


class ProfileCanvas(DrawingCanvas):
    """Two strips on one station axis, as one drawing: profile above, deviation below.

    ``layout(width_mm, height_mm) -> Drawing`` comes from sync.papers.
    """
