"""List of facts to read, close together; rows take no touch, so they may be low."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.input.list_rows import shorten
from crewapp.kit.lists.row_list import PageArrow
from crewapp.kit.look.paint import DrawnWidget, edge, status_shape
from crewapp.kit.look.palette import GAP_MM, INK, RULE, RULE_MM, TOUCH_MM, Status
from crewapp.kit.look.theme import px
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

WIDE_ROW_MM, NARROW_ROW_MM, NARROW_MM = 14.5, 21.0, 118.0
WIDE_SIGNS, NARROW_SIGNS = 84, 64


@dataclass(frozen=True, slots=True)
class Fact:
    """Fact of a list: what it is, what more there is to say, its figure, how it stands."""

    title: str
    detail: str = ""
    figure: str = ""
    status: str = ""


class FactRow(DrawnWidget):
    """Row of a fact on its ruled line: on a wide page in three columns, else in two lines."""

    def __init__(self, fact: Fact, is_wide: bool, **kwargs: Any) -> None:
        self.fact, self.is_wide = fact, is_wide
        title = shorten(fact.title, WIDE_SIGNS if is_wide else NARROW_SIGNS)
        self.title = TextLabel(text=title, bold=True, cap_mm=3.5, lines=3 if is_wide else 2)
        self.detail = TextLabel(text=fact.detail, cap_mm=3.2, lines=3 if is_wide else 2)
        self.figure = TextLabel(text=fact.figure, bold=True, cap_mm=3.8, halign="right")
        super().__init__(size_hint=(None, None), **kwargs)
        for part in (self.title, self.detail, self.figure):
            self.add_widget(part)

    def draw(self) -> None:
        """Draw the line, the state's shape and the words."""
        edge([(self.x, self.y), (self.right, self.y)], RULE, RULE_MM, False)
        left, gap = self.x, px(2.0)
        if self.fact.status:
            size = px(6.5)
            status_shape(Status(self.fact.status), (left + size / 2, self.center_y), size)
        left += px(8.5)
        room = self.right - left
        figure = room * 0.24 if self.fact.figure else 0.0
        self.figure.tone = self.title.tone = self.detail.tone = INK
        if self.is_wide:
            detail = room * (0.36 if self.fact.figure else 0.46) if self.fact.detail else 0.0
            title = room - figure - detail
            self._put(self.title, left, self.y, title - gap, self.height)
            self._put(self.detail, left + title, self.y, detail - gap, self.height)
            self._put(self.figure, self.right - figure, self.y, figure, self.height)
            return
        low = self.height * (0.48 if self.fact.detail else 0.0)
        self._put(self.title, left, self.y + low, room - figure - gap, self.height - low)
        self._put(self.detail, left, self.y, room, low)
        self._put(self.figure, self.right - figure, self.y + low, figure, self.height - low)

    @staticmethod
    def _put(words: TextLabel, x: float, y: float, wide: float, high: float) -> None:
        words.pos, words.size = (x, y), (max(wide, 0.0), high)


class FactList(Widget):
    """``show_facts`` puts facts in; keys under them turn the page. ``foot`` holds more keys."""

    def __init__(self, foot: Sequence[Any] = (), **kwargs: Any) -> None:
        self.facts: tuple[Fact, ...] = ()
        self.first = 0
        self.foot = list(foot)
        self.up, self.down = PageArrow(points_up=True), PageArrow(points_up=False)
        self.count = TextLabel(halign="center", lines=2)
        self.up.bind(on_release=lambda _: self.turn(-1))
        self.down.bind(on_release=lambda _: self.turn(1))
        super().__init__(**kwargs)
        self.bind(pos=self._place, size=self._place)

    def show_facts(self, facts: Sequence[Fact]) -> None:
        """Show these facts, from the first; the page stays where it was while they are the same."""
        if tuple(facts) != self.facts:
            self.facts = tuple(facts)
            self.first = 0
        self._place()

    def turn(self, pages: int) -> None:
        """Turn so many pages on, or back."""
        step = self._whole()
        last = max((len(self.facts) - 1) // step * step, 0)
        self.first = min(max(self.first + pages * step, 0), last)
        self._place()

    def _row_mm(self) -> float:
        return NARROW_ROW_MM if self.width < px(NARROW_MM) else WIDE_ROW_MM

    def _whole(self) -> int:
        """Return how many facts are seen at once."""
        room = self.height - px(TOUCH_MM + GAP_MM)
        return max(int((room + 1) / px(self._row_mm())), 1)

    def _place(self, *_: object) -> None:
        """Lay out the facts in view and the keys under them."""
        self.clear_widgets()
        whole = self._whole()
        shown = self.facts[self.first : self.first + whole]
        high = (self.height - px(TOUCH_MM + GAP_MM)) / whole
        for number, fact in enumerate(shown):
            row = FactRow(fact, self._row_mm() == WIDE_ROW_MM)
            row.size = (self.width, high)
            row.pos = (self.x, self.top - (number + 1) * high)
            self.add_widget(row)
        last = self.first + len(shown)
        self.up.disabled, self.down.disabled = self.first == 0, last >= len(self.facts)
        self.count.text = say(
            "{first} to {last} of {count}",
            first=min(self.first + 1, last),
            last=last,
            count=len(self.facts),
        )
        self._place_foot()

    def _place_foot(self) -> None:
        """Put the page keys at the left, other keys beside them."""
        parts = [self.up, self.count, self.down, *self.foot]
        gap = px(GAP_MM)
        each = (self.width - gap * (len(parts) - 1)) / (len(parts) + len(self.foot))
        left = self.x
        for part in parts:
            wide = each * (2 if part in self.foot else 1)
            part.size_hint = (None, None)
            part.size, part.pos = (wide, px(TOUCH_MM)), (left, self.y)
            left += wide + gap
            self.add_widget(part)
