"""How parts are laid out on a page: rows, columns, and a page that turns."""

from __future__ import annotations

from typing import Any

from kivy.properties import NumericProperty, StringProperty
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from crewapp.kit.look.paint import DrawnWidget, box, edge, fill
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    CAP_TITLE_MM,
    EDGE_MM,
    GAP_MM,
    HEAVY_MM,
    INK,
    PAGE,
    TOUCH_MM,
)
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.text.label import TextLabel

HEAD_MM = 11.0


class Rows(BoxLayout):
    """Parts under each other, 3 mm apart; ``wraps`` makes it as high as its parts."""

    def __init__(self, gap_mm: float = GAP_MM, wraps: bool = False, **kwargs: Any) -> None:
        kwargs.setdefault("orientation", "vertical")
        super().__init__(spacing=px(gap_mm), **kwargs)
        if wraps:
            self.size_hint_y = None
            self.bind(minimum_height=self.setter("height"))


class Columns(BoxLayout):
    """Parts beside each other, 3 mm apart; ``high_mm`` fixes the height."""

    def __init__(self, gap_mm: float = GAP_MM, high_mm: float | None = None, **kwargs: Any) -> None:
        super().__init__(spacing=px(gap_mm), **kwargs)
        if high_mm is not None:
            self.size_hint_y, self.height = None, px(high_mm)


class TwoPanes(BoxLayout):
    """Two parts: beside each other on a wide page, under each other on a high one.

    ``share`` is the first part's share of a wide page, ``high_share`` of a high
    one; 0 gives the first part (a Rows) just the height it needs.
    """

    share = NumericProperty(0.5)
    high_share = NumericProperty(0.5)

    def __init__(self, first: Widget, second: Widget, **kwargs: Any) -> None:
        super().__init__(spacing=px(GAP_MM * 1.5), **kwargs)
        self.parts = (first, second)
        for part in self.parts:
            self.add_widget(part)
        if hasattr(first, "minimum_height"):
            first.bind(minimum_height=self._as_needed)
        self.bind(size=self._turn, share=self._turn, high_share=self._turn)
        self._turn()

    def _turn(self, *_: object) -> None:
        is_wide = self.width >= self.height
        self.orientation = "horizontal" if is_wide else "vertical"
        share = self.share if is_wide else self.high_share
        for part, part_share in zip(self.parts, (share, 1 - share), strict=True):
            part.size_hint = (part_share, 1) if is_wide else (1, part_share)
        if not is_wide and not share:
            self.parts[0].size_hint = (1, None)
            self._as_needed()

    def _as_needed(self, *_: object) -> None:
        """Give the first part the height of its own parts."""
        first = self.parts[0]
        if first.size_hint_y is None:
            first.height = first.minimum_height


class PageHead(DrawnWidget):
    """The head of a page: its title large, where we are at its right, a heavy rule.

    Parts added to ``tools`` (a Columns) stand at the right end.
    """

    title = StringProperty("")
    place = StringProperty("")
    redraw_on = ("title", "place")

    def __init__(self, **kwargs: Any) -> None:
        self.words = TextLabel(cap_mm=CAP_TITLE_MM, bold=True, lines=2)
        self.where = TextLabel(cap_mm=CAP_LABEL_MM, lines=2, halign="right")
        self.tools = Columns()
        super().__init__(size_hint_y=None, height=px(HEAD_MM), **kwargs)
        for part in (self.words, self.where, self.tools):
            self.add_widget(part)
        self.tools.size_hint = (None, None)
        self.tools.bind(children=self.redraw, minimum_width=self.redraw)

    def arrange(self) -> None:
        """Be as high as the tools need, or low without any."""
        self.height = px(TOUCH_MM + GAP_MM if self.tools.children else HEAD_MM)

    def draw(self) -> None:
        """Draw the rule and put the parts in their places."""
        low = self.y + px(1.2)
        edge([(self.x, self.y + px(0.4)), (self.right, self.y + px(0.4))], INK, HEAVY_MM, False)
        tools = sum(child.width for child in self.tools.children)
        tools += max(len(self.tools.children) - 1, 0) * self.tools.spacing
        self.tools.size = (tools, self.height - px(3.0))
        self.tools.pos = (self.right - tools, self.y + px(3.0))
        room = self.width - tools - (px(GAP_MM) if tools else 0)
        self.words.text, self.where.text = self.title, self.place
        high = self.top - low
        size = font_px(CAP_TITLE_MM)
        title = text_size_px(self.title, size, True, font_for(self.title))[0] + px(1.0)
        title = min(title, room * (0.6 if self.place else 1.0))
        self.words.pos, self.words.size = (self.x, low), (title, high)
        self.where.pos = (self.x + title + px(GAP_MM), low)
        self.where.size = (room - title - px(GAP_MM), high)


class Page(BoxLayout):
    """A white page with its edge kept free, a head, and a body to add parts to."""

    def __init__(self, title: str = "", place: str = "", **kwargs: Any) -> None:
        super().__init__(orientation="vertical", padding=px(EDGE_MM), spacing=px(GAP_MM), **kwargs)
        self.head = PageHead(title=title, place=place)
        self.add_widget(self.head)
        self.bind(pos=self._ground, size=self._ground)

    def _ground(self, *_: object) -> None:
        self.canvas.before.clear()
        with self.canvas.before:
            fill(box(*self.pos, *self.size), PAGE)


class SectionRule(DrawnWidget):
    """A section's name on a ruled line; ``figure`` stands at the right end of it.

    ``figure_share`` is the part of the line that the figure has, where there is one.
    """

    text = StringProperty("")
    figure = StringProperty("")
    figure_share = NumericProperty(0.45)
    redraw_on = ("text", "figure", "figure_share")

    def __init__(self, **kwargs: Any) -> None:
        self.words = TextLabel(bold=True)
        self.right_words = TextLabel(halign="right")
        super().__init__(size_hint_y=None, height=px(8.5), **kwargs)
        self.add_widget(self.words)
        self.add_widget(self.right_words)

    def draw(self) -> None:
        """Draw the rule under the name."""
        low = self.y + px(0.3)
        edge([(self.x, low), (self.right, low)], INK, 0.5, False)
        split = 1 - self.figure_share if self.figure else 1.0
        self.words.text, self.right_words.text = self.text, self.figure
        self.words.pos, self.words.size = self.pos, (self.width * split, self.height)
        self.right_words.pos = (self.x + self.width * split, self.y)
        self.right_words.size = (self.width * (1 - split), self.height)


def place_in(part: Any, holder: Any, is_shown: bool, index: int) -> None:
    """Put a part into its holder, or take it out of wherever it is."""
    if part.parent is not None and (part.parent is not holder or not is_shown):
        part.parent.remove_widget(part)
    if is_shown and part.parent is None:
        holder.add_widget(part, index=index)
