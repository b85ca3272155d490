"""The plan on the glass: one mesh for each kind of line, moved by keys or a finger."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Any

from kivy.graphics import (
    Color,
    Mesh,
    PopMatrix,
    PushMatrix,
    StencilPop,
    StencilPush,
    StencilUnUse,
    StencilUse,
    Translate,
)
from kivy.graphics.vertex_instructions import Rectangle
from kivy.properties import BooleanProperty, ObjectProperty

from crewapp.palette import (
    BLUE,
    DARK,
    EDGE_LINE_MM,
    FEINT,
    GAP_MM,
    INK,
    OXIDE,
    PAGE,
    TOUCH_MM,
    Kind,
    Status,
)
from crewapp.state.plan_picture import (
    LineState,
    PlanPicture,
    Point,
    Window,
    nearest,
    quads,
)
from crewapp.theme import px, rgba
from crewapp.widgets.drawing_view import dashes, fill_any
from crewapp.widgets.ink import Drawn, box, edge, fill, inset, status_shape
from crewapp.widgets.touchable import Touchable

# Colour and weight of each kind of line, the last drawn on top.
STYLES: dict[LineState, tuple[str, float]] = {
    LineState.PLANNED: (DARK, 0.3),
    LineState.DONE: (INK, 0.5),
    LineState.OUT: (OXIDE, 1.0),
    LineState.TODAY: (BLUE, 1.0),
    LineState.SELECTED: (INK, 1.8),
}
MOST_VERTICES = 65_000  # an index of a mesh has 16 bits
MOST_DASHES, DASH_SHARE = 8_000, 0.63  # more pieces than the eye parts: longer dashes then
PICK_MM = 9.0
ZOOM_STEP, MOST_ZOOM = 1.6, 40.0
MARGIN_MM = 4.0


class PlanView(Drawn):
    """Shows a ``picture`` (state.plan_picture); event ``on_pick(key)`` for a tapped line.

    ``has_keys`` draws keys to zoom, so that no task needs a pinch. A finger may
    pull the paper too.
    """

    picture = ObjectProperty(PlanPicture())
    window = ObjectProperty(None, allownone=True)
    has_keys = BooleanProperty(True)
    redraw_on = ("picture", "window", "has_keys")

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        self._pull = Translate(0, 0)
        self.keys = [
            Touchable(text=text, kind=Kind.PLAIN, cap_mm=6.0) for text in ("+", "\u2212", "1:1")
        ]
        for key, act in zip(self.keys, (self._closer, self._farther, self.whole), strict=True):
            key.bind(on_release=act)
        super().__init__(**kwargs)
        self.bind(size=self.whole)

    def on_pick(self, key: str) -> None:
        """Event: a line was tapped."""

    def whole(self, *_: object) -> None:
        """Show the whole plan."""
        self.window = None

    def _seen(self) -> Window:
        """Return the window shown: the one chosen, or the whole plan."""
        if self.window is not None:
            chosen: Window = self.window
            return chosen
        room = px(2 * MARGIN_MM)
        keys = px(TOUCH_MM + GAP_MM) if self.has_keys else 0
        beside, below = (keys, 0.0) if self._is_wide() else (0.0, keys)
        width, height = self.width - room - beside, self.height - room - below
        whole = Window.around(self.picture, max(width, 1), max(height, 1))
        return whole.moved(-beside / 2, below / 2)

    def _is_wide(self) -> bool:
        """Whether the keys stand at the side, under each other; else at the foot."""
        left, low, right, top = self.picture.bounds()
        return bool(self.width * (top - low) > self.height * (right - left))

    def _closer(self, *_: object) -> None:
        whole = Window.around(self.picture, max(self.width, 1), max(self.height, 1))
        seen = self._seen()
        if seen.scale * ZOOM_STEP <= whole.scale * MOST_ZOOM:
            self.window = seen.zoomed(ZOOM_STEP)

    def _farther(self, *_: object) -> None:
        whole = Window.around(self.picture, max(self.width, 1), max(self.height, 1))
        smaller = self._seen().zoomed(1 / ZOOM_STEP)
        self.window = smaller if smaller.scale > whole.scale else None

    def on_touch_down(self, touch: Any) -> bool:
        """Keys first; then a tap that may become a pull."""
        if super().on_touch_down(touch):
            return True
        if not self.collide_point(*touch.pos):
            return False
        touch.grab(self)
        touch.ud[self] = False
        return True

    def on_touch_move(self, touch: Any) -> bool:
        """Pull the paper, once the finger has moved further than a shaky tap."""
        if touch.grab_current is not self:
            return bool(super().on_touch_move(touch))
        far = max(abs(touch.x - touch.ox), abs(touch.y - touch.oy))
        if touch.ud.get(self) or far > px(4.0):
            touch.ud[self] = True
            # While the finger is down only a matrix moves; the lines are not made anew.
            self._pull.xy = (touch.x - touch.ox, touch.y - touch.oy)
        return True

    def on_touch_up(self, touch: Any) -> bool:
        """A finger that did not pull has picked the nearest line."""
        if touch.grab_current is not self:
            return bool(super().on_touch_up(touch))
        touch.ungrab(self)
        if touch.ud.get(self):
            self.window = self._seen().moved(touch.x - touch.ox, touch.y - touch.oy)
            return True
        seen = self._seen()
        at = seen.world(touch.pos, self.center)
        line = nearest(self.picture, at, px(PICK_MM) / seen.scale)
        if line is not None:
            self.dispatch("on_pick", line.key)
        return True

    def arrange(self) -> None:
        """Show the zoom keys where the plan leaves room."""
        for place, key in enumerate(self.keys):
            if self.has_keys != (key.parent is self):
                (self.add_widget if self.has_keys else self.remove_widget)(key)
            side = px(TOUCH_MM)
            key.size = (side, side)
            along = place * (side + px(GAP_MM)) + px(2.0)
            if self._is_wide():
                key.pos = (self.right - side - px(2.0), self.top - along - side)
            else:
                key.pos = (self.x + along, self.y + px(2.0))

    def draw(self) -> None:
        """Draw frame, surface and lines, cut off at the frame."""
        frame = inset(self, EDGE_LINE_MM / 2)
        fill(box(*frame), PAGE)
        if self.width < 2 or self.height < 2:
            return
        StencilPush()
        Rectangle(pos=self.pos, size=self.size)
        StencilUse()
        PushMatrix()
        self._pull = Translate(0, 0)
        self._draw_ground()
        self._draw_lines()
        PopMatrix()
        StencilUnUse()
        Rectangle(pos=self.pos, size=self.size)
        StencilPop()
        edge(box(*frame), INK, EDGE_LINE_MM)

    def _placed(self, points: Iterable[Point]) -> list[Point]:
        seen, middle = self._seen(), self.center
        return [seen.place(point, middle) for point in points]

    def _draw_ground(self) -> None:
        """Draw the surface's outline and its keep-outs."""
        for ring in self.picture.keep_outs:
            fill_any(self._placed(ring), FEINT)
            edge(self._placed(ring), INK, 0.35)
        if len(self.picture.outline) > 1:
            edge(self._placed(self.picture.outline), INK, 0.8)

    def _weight(self, weight_mm: float) -> float:
        """Return a line's width in pixels: never so wide that neighbours run together."""
        apart = self.picture.spacing * self._seen().scale
        if not apart:
            return px(weight_mm)
        heaviest = max(weight for _, weight in STYLES.values())
        return min(px(weight_mm), max(apart * 0.8 * weight_mm / heaviest, 1.0))

    def _draw_lines(self) -> None:
        """Draw one mesh a state, or more where there are too many corners."""
        by_state: dict[LineState, list[list[Point]]] = {state: [] for state in STYLES}
        for line in self.picture.lines:
            by_state[line.state].append(self._placed(line.points))
        for state, (colour, weight) in STYLES.items():
            pieces = by_state[state]
            if state is LineState.PLANNED:
                on = max(px(2.4), _length(pieces) * DASH_SHARE / MOST_DASHES)
                off = on * (1 - DASH_SHARE) / DASH_SHARE
                pieces = [p for whole in pieces for p in dashes(whole, on, off)]
            _mesh(pieces, colour, self._weight(weight))
        for points in by_state[LineState.OUT]:
            (ax, ay), (bx, by) = points[0], points[-1]
            status_shape(Status.OUT, ((ax + bx) / 2, (ay + by) / 2), px(4.5))


def _length(lines: Iterable[list[Point]]) -> float:
    """Return the length of all lines together, in pixels."""
    return sum(math.dist(a, b) for points in lines for a, b in pairwise(points))


def _mesh(lines: Iterable[list[Point]], colour: str, width: float) -> None:
    """Draw lines as boxes of one colour, in as few meshes as their indices allow."""
    Color(*rgba(colour))
    vertices: list[float] = []
    indices: list[int] = []
    for points in lines:
        for corners in quads(points, max(width, 1.0)):
            if len(vertices) // 4 + 4 > MOST_VERTICES:
                Mesh(vertices=vertices, indices=indices, mode="triangles")
                vertices, indices = [], []
            first = len(vertices) // 4
            for x, y in corners:
                vertices += (x, y, 0.0, 0.0)
            indices += (first, first + 1, first + 2, first, first + 2, first + 3)
    if indices:
        Mesh(vertices=vertices, indices=indices, mode="triangles")
