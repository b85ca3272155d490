"""A part with a plan at one side and tiles at the other: what can be typed, what comes of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar, Generic, TypeVar

from kivy.clock import Clock
from kivy.core.window import Window

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.look.palette import TOUCH_MM
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, Rows
from crewapp.kit.text.fit_text import FitSentences
from crewapp.pages.frame.parted_page import Part, PartPanes
from crewapp.pages.plan.forms import Tile

WORDS_MM = 10.5
Field = TypeVar("Field", bound=str)


class TilesPart(Part, Generic[Field]):
    """Part of ``tiles(view)``, ``words(view)`` and ``feet()``; taps go to ``take_tap``."""

    needs_mm = (48.0, 88.0)
    share, high_share = 0.4, 0.4
    tile_mm: ClassVar[float] = 23.5  # as narrow as a tile may be with its name read whole

    def build(self) -> None:
        """Make the plan with its words, the tiles and the foot."""
        self.plan = PlanCanvas(has_keys=False)
        self.words = FitSentences(cap_mm=3.2, size_hint_y=None, height=px(WORDS_MM))
        self.words.bind(width=lambda *_: self._give_room())
        self.tiles_box = KeyPages(
            least_wide_mm=self.tile_mm, least_high_mm=TOUCH_MM, most_high_mm=22.0
        )
        self.made: tuple[Tile[Field], ...] = ()
        self.left = Rows(gap_mm=2.0)
        self.left.add_widget(self.plan)
        self.left.add_widget(self.words)
        self.foot = Columns()
        self.foot.size_hint_y = None
        feet = self.feet()
        self.foot.height = max((key.height for key in feet), default=0.0)
        for key in feet:
            self.foot.add_widget(key)
        sides = PartPanes(self.left, self.tiles_box, share=self.share, high_share=self.high_share)
        self.add_widget(sides)
        self._seat = Clock.create_trigger(lambda _: self._seat_foot(), -1)
        self.bind(size=lambda *_: self._seat())
        self._seat_foot()

    def _seat_foot(self) -> None:
        """Put the foot under the plan on a wide page, where tiles need all height; else last."""
        holder = self.left if Window.width >= Window.height else self
        if self.foot.parent is not holder and self.foot.children:
            if self.foot.parent is not None:
                self.foot.parent.remove_widget(self.foot)
            holder.add_widget(self.foot)

    def feet(self) -> list[Any]:
        """Return the keys under all of it."""
        return []

    def show_tiles(self, tiles: Sequence[Tile[Field]]) -> None:
        """Show these tiles; the page of them stays while their names are the same."""
        if tuple(tiles) == self.made:
            return
        is_same = [one.field for one in tiles] == [one.field for one in self.made]
        first = self.tiles_box.first if is_same else 0
        self.made = tuple(tiles)
        self.tiles_box.show_keys([self._tile(one) for one in tiles], first)

    def _tile(self, tile: Tile[Field]) -> TapKey:
        key = TapKey(text=tile.value, note=tile.name, cap_mm=3.8)
        key.bind(on_release=lambda _: self.take_tap(tile.field))
        return key

    def take_tap(self, field: Field) -> None:
        """Take a tap on a tile."""
        raise NotImplementedError

    def say_below(self, sentences: Sequence[str], why_not: str) -> None:
        """Say under the plan what came of it, or in its place why nothing did."""
        told = [why_not] if why_not else list(sentences)
        has_plan = bool(self.plan.picture.outline) and not why_not
        self._show_plan(has_plan)
        self.words.size_hint_y = None if has_plan else 1
        self.words.sentences = told
        self._give_room()

    def _give_room(self) -> None:
        """Let the first sentence be read whole: the plan gives way, down to half of the room."""
        if self.words.size_hint_y is None:
            most = max(self.left.height / 2, px(WORDS_MM))
            needed = min(self.words.needed_px() + 1, most)
            self.words.height = max(px(WORDS_MM), needed) if self.words.sentences else 0.0

    def _show_plan(self, is_shown: bool) -> None:
        """Show the plan, or leave its room to the words."""
        if is_shown and self.plan.parent is None:
            self.left.add_widget(self.plan, index=len(self.left.children))
        elif not is_shown and self.plan.parent is not None:
            self.left.remove_widget(self.plan)
