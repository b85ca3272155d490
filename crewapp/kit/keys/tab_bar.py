"""The tabs along the page's edge: one a screen, like the index cut of a field book."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from kivy.properties import BooleanProperty, OptionProperty, StringProperty

from crewapp.kit.keys.touchable import Touchable
from crewapp.kit.look.paint import DrawnWidget, box, edge, fill, inset, tab_box
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    GAP_MM,
    HEAVY_MM,
    INK,
    OXIDE,
    PAGE,
    TOUCH_MM,
    ButtonKind,
)
from crewapp.kit.look.theme import px, to_mm
from crewapp.kit.text.label import TextLabel
from crewapp.words.translate import say

TAB_LEAST_MM = 17.0
RAIL_MM = 22.0
FOOT_MM = 16.0
MORE = "more"


@dataclass(frozen=True, slots=True)
class Tab:
    """Tab of a screen: its name, the words on it, and how many things are open there."""

    name: str
    text: str
    waiting: int = 0


def pages_of(tabs: Sequence[Tab], places: int) -> list[list[Tab]]:
    """Return the tabs in pages that fit; several pages leave a place for More."""
    if len(tabs) <= places:
        return [list(tabs)]
    most = max(places - 1, 1)
    count = -(-len(tabs) // most)
    size = -(-len(tabs) // count)
    return [list(tabs[start : start + size]) for start in range(0, len(tabs), size)]


class TabKey(Touchable):
    """Key of a tab; the current one is black and joined to the page's rule."""

    is_current = BooleanProperty(False)
    redraw_on = (*Touchable.redraw_on, "is_current", "waiting")
    waiting = StringProperty("")
    side = "right"

    def __init__(self, **kwargs: Any) -> None:
        kwargs.setdefault("cap_mm", CAP_LABEL_MM)
        self.count = TextLabel(bold=True, halign="center", tone=PAGE)
        super().__init__(**kwargs)
        self.words.lines = 1
        self.add_widget(self.count)

    def draw(self) -> None:
        """Draw the tab and, in dark red, how many things wait."""
        is_dark = self.is_current != (self.state == "down")
        outline = tab_box(*inset(self, 0.3), px(2.5), self.side)
        fill(outline, INK if is_dark else PAGE)
        edge(outline, INK, 0.6)
        self._place_words(PAGE if is_dark else INK)
        self.words.x, self.words.width = self.x + px(0.8), self.width - px(1.6)
        self.count.text = self.waiting
        if self.waiting:
            side = px(5.4)
            self.words.y, self.words.height = self.y, self.height - side - px(0.8)
            place = (self.right - side - px(2.2), self.top - side - px(1.4))
            fill(box(*place, side, side), OXIDE)
            edge(box(*place, side, side), PAGE, 0.4)
            self.count.pos, self.count.size = place, (side, side)


class TabBar(DrawnWidget):
    """``tabs`` along an edge, ``current`` among them; event ``on_pick(name)``.

    ``side`` is where the page lies: "left" makes an upright rail at the right
    edge of the glass, "right" one at the left, "top" a foot. Tabs that don't fit
    go to a second page behind a tab called More.
    """

    current = StringProperty("")
    side = OptionProperty("right", options=("right", "left", "top"))
    redraw_on = ("current", "side")

    def __init__(self, tabs: Sequence[Tab] = (), **kwargs: Any) -> None:
        self.register_event_type("on_pick")
        self.tabs = tuple(tabs)
        self._page = 0
        super().__init__(**kwargs)
        self.fbind("current", self._turn_to_current)

    def show_tabs(self, tabs: Sequence[Tab]) -> None:
        """Show other tabs, or the same with other counts."""
        self.tabs = tuple(tabs)
        self.redraw()

    def on_pick(self, name: str) -> None:
        """Event: a tab was tapped."""

    @property
    def is_upright(self) -> bool:
        """Whether the tabs stand under each other."""
        return bool(self.side != "top")

    def _places(self) -> int:
        length_mm = to_mm(self.height if self.is_upright else self.width)
        least = TOUCH_MM if self.is_upright else TAB_LEAST_MM
        return max(int((length_mm + GAP_MM + 0.01) / (least + GAP_MM)), 2)

    def _turn_to_current(self, *_: object) -> None:
        """Turn to the tabs with the current one; a page without a tab leads back to the first."""
        pages = pages_of(self.tabs, self._places())
        holding = [n for n, page in enumerate(pages) if any(t.name == self.current for t in page)]
        self._page = holding[0] if holding else 0

    def _picked(self, name: str) -> None:
        if name == MORE:
            self._page += 1
            self.redraw()
        else:
            self.dispatch("on_pick", name)

    def arrange(self) -> None:
        """Make the tabs of this page of them."""
        pages = pages_of(self.tabs, self._places())
        shown = list(pages[self._page % len(pages)])
        if len(pages) > 1:
            hidden = sum(tab.waiting for tab in self.tabs if tab not in shown)
            shown.append(Tab(MORE, say("More"), hidden))
        self._fill_keys(shown)

    def draw(self) -> None:
        """Draw the heavy rule on the page's side of the tabs."""
        ends = {
            "right": [(self.right, self.y), (self.right, self.top)],
            "left": [(self.x, self.y), (self.x, self.top)],
            "top": [(self.x, self.top), (self.right, self.top)],
        }[self.side]
        edge(ends, INK, HEAVY_MM, False)

    def _fill_keys(self, shown: Sequence[Tab]) -> None:
        """Make the keys agree with the tabs shown, and place them."""
        keys = self.children[::-1]
        while len(keys) < len(shown):
            key = TabKey(kind=ButtonKind.PLAIN)
            key.bind(on_release=lambda touched: self._picked(touched.tab_name))
            self.add_widget(key)
            keys.append(key)
        for key in keys[len(shown) :]:
            self.remove_widget(key)
        gap, count = px(GAP_MM), max(len(shown), 1)
        length = self.height if self.is_upright else self.width
        each = (length - gap * (count - 1)) / count
        for place, (key, tab) in enumerate(zip(keys, shown, strict=False)):
            key.tab_name, key.text = tab.name, tab.text
            key.waiting = str(min(tab.waiting, 99)) if tab.waiting else ""
            key.side = self.side
            key.is_current = tab.name == self.current
            self._place(key, place, each, gap)

    def _place(self, key: TabKey, place: int, each: float, gap: float) -> None:
        """Put one key at its place from the top or the left."""
        if self.is_upright:
            key.size = (self.width, each)
            key.pos = (self.x, self.top - (place + 1) * each - place * gap)
        else:
            key.size = (each, self.height)
            key.pos = (self.x + place * (each + gap), self.y)
