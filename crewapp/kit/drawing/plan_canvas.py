"""The plan on the glass: pulled by a finger, enlarged by two or by keys, a line picked by a tap."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from kivy.clock import Clock
from kivy.graphics import Canvas, Color
from kivy.graphics.vertex_instructions import Rectangle
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty

from crewapp.kit.drawing.drawing_canvas import text_texture
from crewapp.kit.drawing.plan_fingers import Fingers
from crewapp.kit.drawing.plan_labels import Label, labels_of
from crewapp.kit.drawing.plan_paint import PlanInk, line_stride
from crewapp.kit.drawing.plan_picture import LineState, PlanPicture, Window, nearest
from crewapp.kit.keys.pointer import wheel_turned
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import DrawnWidget, box, edge, inset
from crewapp.kit.look.palette import (
    CAP_LEAST_MM,
    EDGE_LINE_MM,
    GAP_MM,
    INK,
    PAGE,
    TOUCH_MM,
    ButtonKind,
)
from crewapp.kit.look.theme import font_for, font_px, px, rgba, text_size_px
from crewapp.words.translate import say

PICK_MM, SHAKY_MM = 9.0, 4.0
ZOOM_STEP, MOST_ZOOM = 1.6, 40.0
MARGIN_MM = 4.0
REST_S = 0.12  # a paper that lay still for so long is lettered anew


class PlanCanvas(DrawnWidget):
    """Shows a ``picture`` (state.plan_picture); event ``on_pick(key)`` for a tapped line.

    ``has_keys`` draws keys to zoom, so that no task needs a pinch. A finger may
    pull the paper, two may enlarge it about their middle, and so does the wheel of
    a mouse about the pointer. ``selected`` is the key of a line drawn heaviest.
    ``cap_mm`` is how high its names are, 0 for none.
    """

    picture = ObjectProperty(PlanPicture())
    window = ObjectProperty(None, allownone=True)
    has_keys = BooleanProperty(True)
    selected = StringProperty("")
    cap_mm = NumericProperty(0.0)
    redraw_on = ("picture", "has_keys", "selected", "cap_mm")

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        self.fingers = Fingers(px(SHAKY_MM))
        self._ink: PlanInk | None = None
        self._chosen: PlanInk | None = None
        self._names = Canvas()
        self._labels: list[tuple[Label, Rectangle, Rectangle]] = []
        self._letter = Clock.create_trigger(lambda _: self._write_names(), REST_S)
        self.keys = [
            Touchable(text=text, kind=ButtonKind.PLAIN, cap_mm=cap)
            for text, cap in (("+", 6.0), ("\u2212", 6.0), (say("All"), 3.5))
        ]
        for key, act in zip(self.keys, (self._closer, self._farther, self.whole), strict=True):
            key.bind(on_release=act)
        super().__init__(**kwargs)
        self.bind(size=self.whole, window=lambda *_: self._aim())

    def on_pick(self, key: str) -> None:
        """Event: a line was tapped."""

    def whole(self, *_: object) -> None:
        """Show the whole plan."""
        self.window = None

    def _whole(self) -> Window:
        """Return the window that shows all, beside the keys."""
        room = px(2 * MARGIN_MM)
        keys = px(TOUCH_MM + GAP_MM) if self.has_keys else 0
        beside, below = (keys, 0.0) if self._is_wide() else (0.0, keys)
        width, height = self.width - room - beside, self.height - room - below
        whole = Window.around(self.picture, max(width, 1), max(height, 1))
        return whole.pan(-beside / 2, below / 2)

    def _seen(self) -> Window:
        """Return the window shown: the one chosen, or the whole plan."""
        chosen: Window | None = self.window
        return chosen or self._whole()

    def _is_wide(self) -> bool:
        """Whether the keys stand at the side, under each other; else at the foot."""
        left, low, right, top = self.picture.bounds()
        has_room = self.height >= px(3 * TOUCH_MM + 2 * GAP_MM + MARGIN_MM)
        return has_room and bool(self.width * (top - low) > self.height * (right - left))

    def _closer(self, *_: object) -> None:
        self._step(1, self.center)

    def _farther(self, *_: object) -> None:
        self._step(-1, self.center)

    def _step(self, steps: int, about: Any) -> None:
        """Enlarge about a place by a step, or go back by one; the last one shows the whole plan."""
        if steps < 0 and self._seen().scale <= self._whole().scale * ZOOM_STEP:
            self.whole()
        else:
            self._enlarge(ZOOM_STEP**steps, about)

    def _enlarge(self, times: float, about: Any, moved: tuple[float, float] = (0, 0)) -> None:
        """Move the paper, then enlarge it about a place: from the whole plan to 40 times it."""
        least, seen = self._whole().scale, self._seen()
        times = min(max(times, least / seen.scale), least * MOST_ZOOM / seen.scale)
        after = seen.pan(*moved).zoom_about(times, about, self.center)
        self.window = after.keep_on_plan(self.picture.bounds())

    def on_touch_down(self, touch: Any) -> bool:
        """Keys first; then a tap that may become a pull."""
        if super().on_touch_down(touch):
            return True
        if not self.collide_point(*touch.pos):
            return False
        if touch.is_mouse_scrolling:
            self._step(wheel_turned(touch), touch.pos)
            return True
        touch.grab(self)
        self.fingers.down(touch.uid, touch.pos)
        return True

    def on_touch_move(self, touch: Any) -> bool:
        """Pull the paper, once the finger has moved further than a shaky tap."""
        if touch.grab_current is not self:
            return bool(super().on_touch_move(touch))
        pull = self.fingers.move(touch.uid, touch.pos)
        if pull is not None:
            self._enlarge(pull.times, pull.about, (pull.dx_px, pull.dy_px))
        return True

    def on_touch_up(self, touch: Any) -> bool:
        """A finger that did not pull has picked the nearest line."""
        if touch.grab_current is not self:
            return bool(super().on_touch_up(touch))
        touch.ungrab(self)
        if self.fingers.up(touch.uid):
            seen = self._seen()
            at = seen.world(touch.pos, self.center)
            line = nearest(self.picture, at, px(PICK_MM) / seen.scale)
            if line is not None:
                self.dispatch("on_pick", line.key)
        return True

    def arrange(self) -> None:
        """Make the lines, and show the zoom keys where the plan leaves room."""
        # Here and not in draw: what is made while a canvas is written is drawn twice.
        if self._ink is None or self._ink.picture is not self.picture:
            self._ink = PlanInk(self.picture)
        self._chosen = self._chosen_ink()
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
        if self.width < 2 or self.height < 2:
            return
        for ink in (self._ink, self._chosen):
            if ink is not None:
                self.canvas.before.add(ink.context)
        self.canvas.before.add(self._names)
        edge(box(*inset(self, EDGE_LINE_MM / 2)), INK, EDGE_LINE_MM)
        self._aim()
        self._write_names()

    def _chosen_ink(self) -> PlanInk | None:
        """Return the selected line as a plan of its own, drawn over the other."""
        line = next((one for one in self.picture.lines if one.key == self.selected), None)
        if line is None:
            return None
        chosen = replace(line, state=LineState.SELECTED)
        return PlanInk(PlanPicture(lines=(chosen,)))

    def _aim(self) -> None:
        """Show the window: only matrices and the places of names move."""
        seen, middle = self._seen(), self.center
        for ink in (self._ink, self._chosen):
            if ink is not None:
                ink.aim(seen, middle, self.size)
        self._place_names(seen, middle)
        self._letter.cancel()  # it waits until the paper lies still
        self._letter()

    def _place_names(self, seen: Window, middle: Any) -> None:
        for label, ground, letters in self._labels:
            x, y = seen.place(label.at, middle)
            ground.pos = (x - label.wide_px / 2, y - label.high_px / 2)
            letters.pos = (round(x - letters.size[0] / 2), round(y - letters.size[1] / 2))

    def _write_names(self) -> None:
        """Letter the lines anew for what is seen, on a white ground that lies over them."""
        self._names.clear()
        self._labels = []
        if not self.cap_mm or not self.picture.lines or self._ink is None:
            return
        size = font_px(max(self.cap_mm, CAP_LEAST_MM))

        def wide_of(text: str) -> float:
            return text_size_px(text, size, True, font_for(text))[0] + px(1.2)

        view = (self.x, self.y, self.right, self.top)
        seen, middle = self._seen(), self.center
        for label in labels_of(self.picture, seen, view, px(self.cap_mm * 1.5), wide_of):
            texture = text_texture(label.text, round(size, 1), True)
            with self._names:
                Color(*rgba(PAGE))
                ground = Rectangle(size=(label.wide_px, label.high_px))
                Color(*rgba(INK))
                letters = Rectangle(texture=texture, size=texture.size)
            self._labels.append((label, ground, letters))
        self._note_thinning(size)
        self._place_names(seen, middle)

    def _note_thinning(self, size: float) -> None:
        """Say at the top that not every line is drawn, where that is so."""
        every = line_stride(self.picture, self._seen().scale)
        if every > 1 and self.has_keys:
            note = text_texture(say("1 line in {every} drawn", every=every), round(size, 1), True)
            at = (self.x + px(2.0), self.top - px(2.0) - note.size[1])
            with self._names:
                Color(*rgba(PAGE))
                Rectangle(pos=at, size=note.size)
                Color(*rgba(INK))
                Rectangle(texture=note, pos=at, size=note.size)
