"""Facts of any length under each other; what does not fit comes by a page key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from crewapp.palette import CAP_LEAST_MM, GAP_MM, RULE, RULE_MM, TOUCH_MM, Status
from crewapp.theme import font_for, font_px, px, text_size_px
from crewapp.widgets.fact_list import Fact
from crewapp.widgets.ink import Drawn, edge, status_shape
from crewapp.widgets.row_list import PageArrow
from crewapp.widgets.words import Words, lines_needed
from crewapp.wording import say

TITLE_MM, DETAIL_MM, FIGURE_MM = 3.5, CAP_LEAST_MM, 3.8
MARK_MM, MARK_ROOM_MM, PAD_MM = 5.5, 7.5, 1.4
FIGURE_SHARE = 0.5
MOST_LINES = 40
SIDE_FROM_MM, COUNT_MM = 80.0, 16.0


def high_px(text: str, wide: float, cap_mm: float, is_bold: bool) -> float:
    """Return how high a text stands in a width; nothing for no text."""
    if not text:
        return 0.0
    size, font = font_px(cap_mm), font_for(text)
    lines = min(lines_needed(text, wide, size, is_bold, font), MOST_LINES)
    return lines * (text_size_px("Ag", size, is_bold, font)[1] + 1) + 1


class ToldRow(Drawn):
    """One fact on its ruled line: title and figure, the detail under them."""

    def __init__(self, fact: Fact, wide: float, has_marks: bool, **kwargs: Any) -> None:
        self.fact = fact
        self.left_px = px(MARK_ROOM_MM) if has_marks else 0.0
        room = wide - self.left_px
        self.figure_px = 0.0
        if fact.figure:
            natural = text_size_px(fact.figure, font_px(FIGURE_MM), True, font_for(fact.figure))[0]
            self.figure_px = min(natural * 1.02 + px(1.0), room * FIGURE_SHARE)
        self.title_px = room - self.figure_px - (px(2.0) if fact.figure else 0.0)
        self.title_high = max(
            high_px(fact.title, self.title_px, TITLE_MM, True),
            high_px(fact.figure, self.figure_px, FIGURE_MM, True),
        )
        self.detail_high = high_px(fact.detail, room, DETAIL_MM, False)
        self.title = Words(text=fact.title, bold=True, cap_mm=TITLE_MM, lines=MOST_LINES)
        self.detail = Words(text=fact.detail, cap_mm=DETAIL_MM, lines=MOST_LINES)
        self.figure = Words(
            text=fact.figure, bold=True, cap_mm=FIGURE_MM, halign="right", lines=MOST_LINES
        )
        high = self.title_high + self.detail_high + px(2 * PAD_MM)
        super().__init__(size_hint=(None, None), size=(wide, high), **kwargs)
        for part in (self.title, self.detail, self.figure):
            self.add_widget(part)

    def draw(self) -> None:
        """Draw the line, the state's shape and the words."""
        edge([(self.x, self.y), (self.right, self.y)], RULE, RULE_MM, False)
        if self.fact.status:
            size = px(MARK_MM)
            status_shape(Status(self.fact.status), (self.x + size / 2, self.center_y), size)
        left, top = self.x + self.left_px, self.top - px(PAD_MM)
        low = top - self.title_high
        self.title.pos, self.title.size = (left, low), (self.title_px, self.title_high)
        self.figure.size = (self.figure_px, self.title_high)
        self.figure.pos = (self.right - self.figure_px, low)
        self.detail.size = (self.width - self.left_px, self.detail_high)
        self.detail.pos = (left, low - self.detail_high)


class ToldList(Widget):
    """``show_facts`` puts facts in; page keys stand under them only where they don't all fit.

    ``foot`` is a key that stands in the same row, or alone there.
    """

    nothing = StringProperty("")

    def __init__(self, foot: Any = None, **kwargs: Any) -> None:
        self.facts: tuple[Fact, ...] = ()
        self.foot = foot
        self.first = 0
        self._starts = [0]
        self.up, self.down = PageArrow(points_up=True), PageArrow(points_up=False)
        self.count = Words(halign="center", lines=3)
        self.empty = Words(cap_mm=4.0, lines=6)
        self.up.bind(on_release=lambda _: self.turn(-1))
        self.down.bind(on_release=lambda _: self.turn(1))
        super().__init__(**kwargs)
        self.bind(pos=self._place, size=self._place)

    def show_facts(self, facts: Sequence[Fact]) -> None:
        """Show these facts; the page stays where it was while they are the same."""
        if tuple(facts) != self.facts:
            self.facts, self.first, self._starts = tuple(facts), 0, [0]
        self._place()

    def turn(self, pages: int) -> None:
        """Turn a page on, or back."""
        if pages > 0 and self._last < len(self.facts):
            self._starts.append(self._last)
        elif pages < 0 and len(self._starts) > 1:
            self._starts.pop()
        self.first = self._starts[-1]
        self._place()

    def _place(self, *_: object) -> None:
        """Lay out the facts that fit whole, and the page keys if there are more."""
        self.clear_widgets()
        if self.width < 2 or self.height < 2:
            return
        self._is_side = self.foot is None and self.width >= px(SIDE_FROM_MM)
        foot = px(TOUCH_MM + GAP_MM)
        room = self.height + 1 - (foot if self.foot else 0.0)
        rows = self._rows(self.width)
        is_whole = not self.first and sum(row.height for row in rows) <= room
        if self._is_side and not is_whole:
            rows = self._rows(self.width - foot)
        has_foot = bool(self.foot) or not (is_whole or self._is_side)
        self._stack(rows, self.y + (foot if has_foot else 0.0) - 1)
        if not self.facts and self.nothing:
            self.empty.text = self.nothing
            self.empty.pos, self.empty.size = self.pos, self.size
            self.add_widget(self.empty)
        if has_foot or not is_whole:
            self._place_keys(is_whole)

    def _rows(self, wide: float) -> list[ToldRow]:
        has_marks = any(fact.status for fact in self.facts)
        return [ToldRow(fact, wide, has_marks) for fact in self.facts[self.first :]]

    def _stack(self, rows: list[ToldRow], low: float) -> None:
        """Put rows under each other as long as they end above a height; one at least."""
        top, shown = self.top, 0
        for row in rows:
            if shown and top - row.height < low:
                break
            row.pos = (self.x, top - row.height)
            self.add_widget(row)
            top, shown = top - row.height, shown + 1
        self._last = self.first + shown

    _last = 0
    _is_side = False

    def _place_keys(self, is_whole: bool) -> None:
        """Put the page keys at the foot, and the other key beside them."""
        self.up.disabled = self.first == 0
        self.down.disabled = self._last >= len(self.facts)
        self.count.text = say(
            "{first} to {last} of {count}",
            first=min(self.first + 1, self._last),
            last=self._last,
            count=len(self.facts),
        )
        parts: list[Any] = [] if is_whole else [self.up, self.count, self.down]
        if self.foot:
            parts.append(self.foot)
        if self._is_side:
            self._place_beside()
            return
        each = (self.width - (len(parts) - 1) * px(GAP_MM)) / len(parts)
        for place, part in enumerate(parts):
            part.size_hint = (None, None)
            part.size = (each, px(TOUCH_MM))
            part.pos = (self.x + place * (each + px(GAP_MM)), self.y)
            self.add_widget(part)

    def _place_beside(self) -> None:
        """Put the page keys beside the facts, one over the other; the count between, if it fits."""
        side, gap = px(TOUCH_MM), px(GAP_MM)
        between = self.height - 2 * side - 2 * gap
        self.up.pos = (self.right - side, self.top - side)
        self.down.pos = (self.right - side, self.y)
        self.count.pos, self.count.size = (self.right - side, self.y + side + gap), (side, between)
        for part in (self.up, self.down):
            part.size_hint, part.size = (None, None), (side, side)
            self.add_widget(part)
        if between >= px(COUNT_MM):
            self.count.size_hint = (None, None)
            self.add_widget(self.count)
