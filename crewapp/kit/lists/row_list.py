"""Rows of a list, as many as fit whole, with keys to turn the page."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Any

from kivy.lang import Builder
from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.recycleview import RecycleView

from crewapp.kit.keys.pointer import wheel_turned
from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.lists import list_row  # registers the row's class for the view
from crewapp.kit.look.paint import DrawnWidget, fill
from crewapp.kit.look.palette import CAP_LABEL_MM, GAP_MM, INK, PAGE, RULE, TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

Builder.load_string("""
<RowScroller>:
    viewclass: 'ListRow'
    bar_width: 0
    RecycleBoxLayout:
        orientation: 'vertical'
        default_size: None, self.parent.row_px
        default_size_hint: 1, None
        size_hint_y: None
        height: self.minimum_height
        spacing: self.parent.gap_px
""")


SIDE_KEYS_FROM_MM = 110.0  # narrower than this, the page keys go under the rows
MOST_GROWTH = 1.35
_BLANK = {"detail": "", "figure": "", "status": "", "is_struck": False}


class RowScroller(RecycleView):
    """The view that shows as many live rows as fit, and no more."""

    row_px = NumericProperty(1)
    gap_px = NumericProperty(1)


class PageArrow(Touchable):
    """A key with an arrow: one page of rows up or down."""

    points_up = BooleanProperty(True)

    def draw(self) -> None:
        """Draw the key and its arrow; Roboto has none."""
        super().draw()
        size, sign = px(4.0), 1 if self.points_up else -1
        tip = (self.center_x, self.center_y + sign * size * 0.7)
        foot = self.center_y - sign * size * 0.7
        colour = RULE if self.disabled else PAGE if self.state == "down" else INK
        fill([(self.center_x - size, foot), (self.center_x + size, foot), tip], colour)


class RowList(DrawnWidget):
    """A list of rows; event ``on_pick(key)``. No task needs a drag: it has page keys.

    ``show_rows`` takes dicts with the properties of ``ListRow`` (key, title,
    detail, figure, status, is_struck), as a pure function makes them; ``nothing``
    is said when there are none.
    """

    nothing = StringProperty("")
    redraw_on = ("nothing",)

    def __init__(self, row_mm: float = TOUCH_MM, **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        self._row_mm = row_mm
        self.view = RowScroller(row_px=px(row_mm), gap_px=px(GAP_MM), size_hint=(None, None))
        self.up, self.down = PageArrow(points_up=True), PageArrow(points_up=False)
        self.count = TextLabel(cap_mm=CAP_LABEL_MM, halign="center", lines=3)
        self.empty = TextLabel(cap_mm=4.0, lines=4)
        self.up.bind(on_release=lambda _: self.turn(-1))
        self.down.bind(on_release=lambda _: self.turn(1))
        super().__init__(**kwargs)
        self.add_widget(self.view)
        self.add_widget(self.empty)
        self.view.bind(scroll_y=self.redraw)

    def on_pick(self, key: str) -> None:
        """Event: a row was tapped."""

    def show_rows(self, rows: Sequence[dict[str, Any]]) -> None:
        """Show these rows, from the top; what a row leaves out is empty."""
        self.view.data = [_BLANK | row | {"pick": self._picked} for row in rows]
        self.redraw()

    def set_row_mm(self, row_mm: float) -> None:
        """Make rows at least so high from now on."""
        if row_mm != self._row_mm:
            self._row_mm = row_mm
            self.redraw()

    def _picked(self, key: str) -> None:
        self.dispatch("on_pick", key)

    @property
    def _step(self) -> float:
        return px(self._row_mm + GAP_MM)

    def _fit_in(self, high: float) -> int:
        return max(int((high + px(GAP_MM) + 1) / self._step), 1)

    def _whole(self) -> int:
        """Return how many rows are seen whole."""
        step = self.view.row_px + px(GAP_MM)
        return max(int((self.view.height + px(GAP_MM) + 1) / step), 1)

    def _first(self) -> int:
        """Return the number of the uppermost row seen."""
        beyond = max(len(self.view.data) - self._whole(), 0)
        return round((1 - self.view.scroll_y) * beyond)

    def turn(self, pages: int) -> None:
        """Turn so many pages on, or back."""
        self._step_on(pages * self._whole())

    def on_touch_down(self, touch: Any) -> bool:
        """A notch of a mouse's wheel is one row, so that rows stay whole."""
        if touch.is_mouse_scrolling and self.collide_point(*touch.pos):
            self._step_on(-wheel_turned(touch))
            return True
        return bool(super().on_touch_down(touch))

    def _step_on(self, rows: int) -> None:
        """Go so many rows on, or back."""
        beyond = len(self.view.data) - self._whole()
        if beyond > 0:
            first = min(max(self._first() + rows, 0), beyond)
            self.view.scroll_y = 1 - first / beyond

    def arrange(self) -> None:
        """Give the rows their room, and the page keys theirs if there is more."""
        rows = len(self.view.data)
        has_keys = rows > self._fit_in(self.height)
        for part in (self.up, self.down, self.count):
            if has_keys != (part.parent is self):
                (self.add_widget if has_keys else self.remove_widget)(part)
        self.empty.text = "" if rows else self.nothing
        self.empty.pos, self.empty.size = self.pos, self.size
        is_side = self.width >= px(SIDE_KEYS_FROM_MM)
        side = px(TOUCH_MM + GAP_MM) if has_keys else 0.0
        width = self.width - (side if is_side else 0.0)
        room = self.height - (0.0 if is_side else side)
        whole = self._fit_in(room)
        # What is left over makes the rows a little higher instead of lying idle.
        grown = (room + px(GAP_MM)) / whole - px(GAP_MM)
        least = px(self._row_mm)
        # Whole pixels, but never below what a finger needs.
        self.view.row_px = max(int(min(grown, least * MOST_GROWTH)), ceil(least))
        self.view.size = (width, whole * (self.view.row_px + px(GAP_MM)) - px(GAP_MM))
        self.view.pos = (self.x, self.top - self.view.height)
        if has_keys:
            self._place_keys(is_side)

    def _place_keys(self, is_side: bool) -> None:
        """Put the page keys beside the rows or under them, the count between."""
        first, side = self._first(), px(TOUCH_MM)
        last = min(first + self._whole(), len(self.view.data))
        self.count.text = say(
            "{first} to {last} of {count}", first=first + 1, last=last, count=len(self.view.data)
        )
        self.up.disabled, self.down.disabled = first == 0, last >= len(self.view.data)
        if is_side:
            high = self.view.height * 0.36
            left = self.right - side
            self.up.size = self.down.size = (side, high)
            self.up.pos, self.down.pos = (left, self.top - high), (left, self.view.y)
            self.count.size = (side, self.view.height - 2 * high)
            self.count.pos = (left, self.view.y + high)
            return
        wide = (self.width - px(2 * GAP_MM)) / 3
        self.up.size = self.down.size = self.count.size = (wide, side)
        self.up.pos, self.down.pos = self.pos, (self.right - wide, self.y)
        self.count.pos = (self.x + wide + px(GAP_MM), self.y)


ROW_CLASS = list_row.ListRow
