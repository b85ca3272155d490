"""Rows of a list: all of one height, drawn at once, with keys to turn the page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.lang import Builder
from kivy.properties import BooleanProperty, NumericProperty, ObjectProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.recycleview import RecycleView

from crewapp.palette import (
    CAP_LABEL_MM,
    FEINT,
    GAP_MM,
    INK,
    PAGE,
    RULE,
    RULE_MM,
    TOUCH_MM,
    Status,
)
from crewapp.theme import px
from crewapp.widgets.ink import box, edge, fill, status_shape
from crewapp.widgets.touchable import Touchable
from crewapp.widgets.words import Words

Builder.load_string("""
<RowView>:
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


class ListRow(Touchable):
    """One row: ``title`` and ``detail`` left, ``figure`` right, a state's shape.

    ``status`` is "" for a row without a state. ``is_struck`` crosses the row
    out and leaves it readable. ``pick`` is called with ``key`` on a tap.
    """

    key = StringProperty("")
    title = StringProperty("")
    detail = StringProperty("")
    figure = StringProperty("")
    status = StringProperty("")
    is_struck = BooleanProperty(False)
    pick = ObjectProperty(None, allownone=True)
    redraw_on = (*Touchable.redraw_on, "title", "detail", "figure", "status", "is_struck")

    def __init__(self, **kwargs: Any) -> None:
        self.title_words = Words(bold=True, cap_mm=4.0)
        self.detail_words = Words(cap_mm=3.2)
        self.figure_words = Words(bold=True, cap_mm=4.6, halign="right")
        super().__init__(**kwargs)
        for part in (self.title_words, self.detail_words, self.figure_words):
            self.add_widget(part)

    def on_release(self) -> None:
        """Tell the list which row was tapped."""
        if self.pick is not None:
            self.pick(self.key)

    def draw(self) -> None:
        """Draw the row on its ruled line."""
        is_down = self.state == "down"
        fill(box(*self.pos, *self.size), INK if is_down else PAGE)
        low = self.y - px(GAP_MM / 2)
        edge([(self.x, low), (self.right, low)], RULE, RULE_MM, False)
        left = self._draw_state()
        right = self.right - px(2.0)
        figure_wide = (right - left) * 0.36 if self.figure else 0.0
        self.figure_words.pos = (right - figure_wide, self.y)
        self.figure_words.size = (figure_wide, self.height)
        room = right - figure_wide - left - (px(2.0) if self.figure else 0)
        share = 0.45 if self.detail else 0.0
        self.detail_words.pos, self.detail_words.size = (left, self.y), (room, self.height * share)
        self.title_words.pos = (left, self.y + self.height * share)
        self.title_words.size = (room, self.height * (1 - share))
        self._write(PAGE if is_down else INK)
        if self.is_struck:
            middle = self.title_words.center_y
            edge([(left, middle), (right, middle)], INK, 0.6, False)

    def _draw_state(self) -> float:
        """Draw the state's shape and return where the words begin."""
        if not self.status:
            return float(self.x + px(1.0))
        size = px(8.0)
        centre = (self.x + px(1.0) + size / 2, self.center_y)
        if self.state == "down":
            fill(box(self.x, self.y, size + px(2.0), self.height), FEINT)
        status_shape(Status(self.status), centre, size)
        return float(self.x + size + px(4.0))

    def _write(self, tone: str) -> None:
        """Put the words in, in a tone that the ground can carry."""
        words = (
            (self.title_words, self.title),
            (self.detail_words, self.detail),
            (self.figure_words, self.figure),
        )
        for label, text in words:
            label.text, label.tone = text, tone


class RowView(RecycleView):
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
        colour = PAGE if self.state == "down" else RULE if self.disabled else INK
        fill([(self.center_x - size, foot), (self.center_x + size, foot), tip], colour)


class RowList(BoxLayout):
    """A list of rows; event ``on_pick(key)``. No task needs a drag: it has page keys.

    ``show_rows`` takes dicts with the properties of ``ListRow`` (key, title,
    detail, figure, status, is_struck), as a pure function makes them.
    """

    def __init__(self, row_mm: float = TOUCH_MM, **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        super().__init__(spacing=px(GAP_MM), **kwargs)
        self.view = RowView(row_px=px(row_mm), gap_px=px(GAP_MM))
        self.arrows = BoxLayout(
            orientation="vertical", spacing=px(GAP_MM), size_hint_x=None, width=px(TOUCH_MM)
        )
        for points_up in (True, False):
            arrow = PageArrow(points_up=points_up)
            arrow.bind(on_release=lambda _, up=points_up: self.turn(1 if up else -1))
            self.arrows.add_widget(arrow)
        self.add_widget(self.view)
        self._step = px(row_mm + GAP_MM)
        self.view.bind(height=self._fit_arrows)
        self.empty = Words(cap_mm=CAP_LABEL_MM, lines=3, halign="center")

    def on_pick(self, key: str) -> None:
        """Event: a row was tapped."""

    def show_rows(self, rows: Sequence[dict[str, Any]]) -> None:
        """Show these rows; what a row leaves out is empty."""
        blank = {"detail": "", "figure": "", "status": "", "is_struck": False}
        self.view.data = [blank | row | {"pick": self._picked} for row in rows]
        self._fit_arrows()

    def _picked(self, key: str) -> None:
        self.dispatch("on_pick", key)

    def _content(self) -> float:
        return float(len(self.view.data) * self._step - px(GAP_MM))

    def turn(self, pages: int) -> None:
        """Turn so many pages towards the top of the list."""
        room = self._content() - self.view.height
        if room > 0:
            whole = max(int(self.view.height / self._step), 1) * self._step
            self.view.scroll_y = min(max(self.view.scroll_y + pages * whole / room, 0.0), 1.0)

    def _fit_arrows(self, *_: object) -> None:
        """Show the page keys only when there is more than a page."""
        is_needed = self._content() > self.view.height + 1
        if is_needed != (self.arrows.parent is self):
            (self.add_widget if is_needed else self.remove_widget)(self.arrows)
        if not is_needed:
            self.view.scroll_y = 1.0
