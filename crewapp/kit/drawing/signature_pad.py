"""A place to sign: strokes kept as whole numbers, drawn again anywhere."""

from __future__ import annotations

from typing import Any

from kivy.properties import StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset
from crewapp.kit.look.palette import EDGE_LINE_MM, INK, PAGE, RULE, RULE_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

SPAN = 1_000
Strokes = list[list[tuple[int, int]]]


class SignaturePad(DrawnWidget):
    """``strokes``: lists of (x, y) in thousandths of the width, from the lower left.

    ``name`` stands below.

    Events: ``on_signed`` after each stroke, and after all were wiped.
    """

    name = StringProperty("")
    redraw_on = ("name",)
    is_drawn_on = True  # the one part whose task is a drag

    def __init__(self, **kwargs: Any) -> None:
        self.register_event_type("on_signed")
        self.strokes: Strokes = []
        high_mm = kwargs.pop("high_mm", 45.0)
        self.words = TextLabel()
        self.key = Touchable(text=say("Wipe"), kind=ButtonKind.QUIET)
        self.key.bind(on_release=lambda _: self.wipe())
        if "size_hint_y" not in kwargs:
            kwargs.update(size_hint_y=None, height=px(high_mm))
        super().__init__(**kwargs)
        self.add_widget(self.words)
        self.add_widget(self.key)

    def on_signed(self) -> None:
        """Event: the strokes have changed."""

    def wipe(self) -> None:
        """Take all strokes away."""
        self.strokes = []
        self.redraw()
        self.dispatch("on_signed")

    def _area(self) -> tuple[float, float, float, float]:
        """Return the part that is signed on: above the name."""
        foot = px(TOUCH_MM + 2.0)
        return float(self.x), float(self.y + foot), float(self.width), float(self.height - foot)

    def _place(self, touch: Any) -> tuple[int, int] | None:
        x, y, width, height = self._area()
        if not (x <= touch.x <= x + width and y <= touch.y <= y + height):
            return None
        # One scale both ways, so that it prints in the shape it was drawn in.
        return round((touch.x - x) / width * SPAN), round((touch.y - y) / width * SPAN)

    def on_touch_down(self, touch: Any) -> bool:
        """Begin a stroke; the wheel of a mouse leaves no dot."""
        place = self._place(touch)
        if place is None or self.disabled or touch.is_mouse_scrolling:
            return bool(super().on_touch_down(touch))
        touch.grab(self)
        self.strokes.append([place])
        self.redraw()
        return True

    def on_touch_move(self, touch: Any) -> bool:
        """Draw the stroke on; outside the area it waits."""
        if touch.grab_current is not self:
            return bool(super().on_touch_move(touch))
        place = self._place(touch)
        if place is not None and self.strokes and place != self.strokes[-1][-1]:
            self.strokes[-1].append(place)
            self.redraw()
        return True

    def on_touch_up(self, touch: Any) -> bool:
        """End the stroke being drawn."""
        if touch.grab_current is not self:
            return bool(super().on_touch_up(touch))
        touch.ungrab(self)
        self.dispatch("on_signed")
        return True

    def draw(self) -> None:
        """Draw the frame, the line to sign on, and the strokes."""
        x, y, width, height = self._area()
        fill(box(x, y, width, height), PAGE)
        frame = inset(self, EDGE_LINE_MM / 2)
        edge(box(frame[0], round(y), frame[2], round(height) - 1), INK, EDGE_LINE_MM)
        base = y + height * 0.22
        edge([(x + px(4.0), base), (x + width - px(4.0), base)], RULE, RULE_MM, False)
        for stroke in self.strokes:
            points = [(x + a / SPAN * width, y + b / SPAN * width) for a, b in stroke]
            if len(points) == 1:
                points.append((points[0][0] + px(0.5), points[0][1]))
            edge(points, INK, 0.7, False)
        wide = px(26.0)
        self.words.text = self.name
        self.words.pos, self.words.size = self.pos, (width - wide - px(3.0), px(TOUCH_MM))
        self.key.pos, self.key.size = (self.right - wide, self.y), (wide, px(TOUCH_MM))
