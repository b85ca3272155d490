"""Facts of any length under each other; what does not fit comes by a page key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from kivy.clock import Clock
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from crewapp.kit.lists.fact_list import Fact
from crewapp.kit.lists.row_list import PageArrow
from crewapp.kit.look.paint import DrawnWidget, edge, status_shape
from crewapp.kit.look.palette import CAP_LEAST_MM, GAP_MM, RULE, RULE_MM, TOUCH_MM, Status
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel, lines_needed
from crewapp.words.translate import say

TITLE_MM, DETAIL_MM, FIGURE_MM = 3.5, CAP_LEAST_MM, 3.8
MARK_MM, MARK_ROOM_MM, PAD_MM = 5.5, 7.5, 1.4
FIGURE_SHARE = 0.5
MOST_LINES = 40
SIDE_FROM_MM, SIDE_LEAST_MM, LOW_MM, COUNT_MM = 80.0, 55.0, 52.0, 16.0


def high_px(text: str, wide: float, cap_mm: float, is_bold: bool) -> float:
    """Return how high a text stands in a width; nothing for no text."""
    if not text:
        return 0.0
    size, font = font_px(cap_mm), font_for(text)
    lines = min(lines_needed(text, wide, size, is_bold, font), MOST_LINES)
    return lines * (text_size_px("Ag", size, is_bold, font)[1] + 1) + 1


class RowSize(NamedTuple):
    """How much room a fact takes: its columns and the heights of its two lines, in pixels."""

    left: float
    title_wide: float
    figure_wide: float
    title_high: float
    detail_high: float

    @property
    def high(self) -> float:
        """Height of the whole row."""
        return self.title_high + self.detail_high + px(2 * PAD_MM)


def measure_row(fact: Fact, wide: float, has_marks: bool) -> RowSize:
    """Measure a fact in a width; nothing is made, so that a long list costs what is seen of it."""
    left = px(MARK_ROOM_MM) if has_marks else 0.0
    room, figure = wide - left, 0.0
    if fact.figure:
        natural = text_size_px(fact.figure, font_px(FIGURE_MM), True, font_for(fact.figure))[0]
        figure = min(natural * 1.02 + px(1.0), room * FIGURE_SHARE)
    title = room - figure - (px(2.0) if fact.figure else 0.0)
    high = max(
        high_px(fact.title, title, TITLE_MM, True), high_px(fact.figure, figure, FIGURE_MM, True)
    )
    return RowSize(left, title, figure, high, high_px(fact.detail, room, DETAIL_MM, False))


class FactRow(DrawnWidget):
    """Row of a fact on its ruled line: title and figure, the detail under them."""

    def __init__(self, fact: Fact, wide: float, has_marks: bool, **kwargs: Any) -> None:
        self.fact, self.room = fact, measure_row(fact, wide, has_marks)
        self.title = TextLabel(text=fact.title, bold=True, cap_mm=TITLE_MM, lines=MOST_LINES)
        self.detail = TextLabel(text=fact.detail, cap_mm=DETAIL_MM, lines=MOST_LINES)
        self.figure = TextLabel(
            text=fact.figure, bold=True, cap_mm=FIGURE_MM, halign="right", lines=MOST_LINES
        )
        super().__init__(size_hint=(None, None), size=(wide, self.room.high), **kwargs)
        for part in (self.title, self.detail, self.figure):
            if part.text:
                self.add_widget(part)

    def draw(self) -> None:
        """Draw the line, the state's shape and the words."""
        edge([(self.x, self.y), (self.right, self.y)], RULE, RULE_MM, False)
        if self.fact.status:
            size = px(MARK_MM)
            status_shape(Status(self.fact.status), (self.x + size / 2, self.center_y), size)
        room = self.room
        left, top = self.x + room.left, self.top - px(PAD_MM)
        low = top - room.title_high
        self.title.pos, self.title.size = (left, low), (room.title_wide, room.title_high)
        self.figure.size = (room.figure_wide, room.title_high)
        self.figure.pos = (self.right - room.figure_wide, low)
        self.detail.size = (self.width - room.left, room.detail_high)
        self.detail.pos = (left, low - room.detail_high)


class FactList(Widget):
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
        self.count = TextLabel(halign="center", lines=3)
        self.empty = TextLabel(cap_mm=4.0, lines=6)
        self.up.bind(on_release=lambda _: self.turn(-1))
        self.down.bind(on_release=lambda _: self.turn(1))
        super().__init__(**kwargs)
        self._lay = Clock.create_trigger(self._place, -1)
        self.bind(pos=self._lay, size=self._lay)

    def show_facts(self, facts: Sequence[Fact]) -> None:
        """Show these facts; the page stays where it was while they are the same."""
        if tuple(facts) != self.facts:
            self.facts, self.first, self._starts = tuple(facts), 0, [0]
        self._lay()

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
        self._is_side = self.foot is None and self._has_side()
        foot = px(TOUCH_MM + GAP_MM)
        room = self.height + 1 - (foot if self.foot else 0.0)
        is_whole = not self.first and len(self._fitting(self.width, room)) == len(self.facts)
        wide = self.width - (foot if self._is_side and not is_whole else 0.0)
        has_foot = bool(self.foot) or not (is_whole or self._is_side)
        self._stack(wide, self.height + 1 - (foot if has_foot else 0.0))
        if not self.facts and self.nothing:
            self.empty.text = self.nothing
            self.empty.pos, self.empty.size = self.pos, self.size
            self.add_widget(self.empty)
        if has_foot or not is_whole:
            self._place_keys(is_whole)

    def _has_side(self) -> bool:
        """Whether the page keys stand beside the facts: where that leaves them more room."""
        is_wide = self.width >= px(SIDE_FROM_MM)
        is_low = self.height < px(LOW_MM) and self.width >= px(SIDE_LEAST_MM)
        return bool(self.height >= px(2 * TOUCH_MM + GAP_MM) and (is_wide or is_low))

    def _fitting(self, wide: float, room: float) -> list[Fact]:
        """Return the facts that fit whole into a height, from the first seen on."""
        has_marks, found = self._has_marks(), []
        for fact in self.facts[self.first :]:
            room -= measure_row(fact, wide, has_marks).high
            if room < 0:
                break
            found.append(fact)
        return found

    def _has_marks(self) -> bool:
        return any(fact.status for fact in self.facts)

    def _stack(self, wide: float, room: float) -> None:
        """Put the facts that fit under each other; one at least."""
        shown = self._fitting(wide, room) or list(self.facts[self.first : self.first + 1])
        top = self.top
        for fact in shown:
            row = FactRow(fact, wide, self._has_marks())
            row.pos = (self.x, top - row.height)
            self.add_widget(row)
            top -= row.height
        self._last = self.first + len(shown)

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
