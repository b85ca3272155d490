"""Today: what is done, what is left, and the one next thing as the largest target."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.clock import Clock
from kivy.uix.boxlayout import BoxLayout

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import (
    CAP_LABEL_MM,
    CAP_LEAST_MM,
    EDGE_MM,
    GAP_MM,
    KEY_MM,
    TOUCH_MM,
    ButtonKind,
)
from crewapp.kit.look.theme import font_for, font_px, px, text_size_px
from crewapp.kit.marks.status_tile import StatusTile
from crewapp.kit.panes.layout import Rows, place_in
from crewapp.kit.text.label import TextLabel, lines_needed
from crewapp.pages.frame.screen_page import ScreenPage
from crewapp.pages.today.view import GroundRow, ReadinessRow, ShowToday, TodayView
from crewapp.words.translate import say

TILE_MM, TALL_TILE_MM = 28.0, 18.0


class TodayPage(ScreenPage):
    """Page that the morning begins with."""

    name: ClassVar[str] = "today"

    def query(self) -> ShowToday:
        """Return the query, naming the store for the line on unsent entries."""
        return ShowToday(store=self.shell.tablet.settings().store)

    def caution(self) -> str:
        """Say what a day outdoors and a blade in the ground can do."""
        return say("Heat: water, shade, rest. Dig only inside the marks. Local codes come first.")

    def refresh(self) -> None:
        """Read the view anew; where no job is open, the largest key leads to one."""
        self.shell.worker.ask_if_open(self.query(), self._take_any, self.shell.say_failed)

    def _take_any(self, view: TodayView | None) -> None:
        if view is not None:
            self._take(view)
            return
        self.show(TodayView())
        self.head.place = ""

    def build(self) -> None:
        """Make the next thing, the ground and what stands."""
        self.head.title = say("Today")
        self._make_tools()
        self.next = MainKey(
            text="", is_logging=False, cap_mm=6.0, size_hint_y=1, size_hint_min_y=px(KEY_MM)
        )
        self.next.second.lines = 2
        self._next_tab = "jobs"
        self.next.bind(on_release=lambda _: self._lead(self._next_tab))
        self.standing = KeyGrid(least_wide_mm=TILE_MM, high_mm=TOUCH_MM)
        self.ground = RowList(TOUCH_MM)
        self.ground.bind(on_pick=lambda _, key: self._to_ground(key))
        self.foot = TextLabel(cap_mm=CAP_LEAST_MM, lines=7, size_hint_y=None)
        self.first, self.second = Rows(), Rows()
        self.first.add_widget(self.next)
        self.second.add_widget(self.ground)
        self.both = BoxLayout(spacing=px(1.5 * GAP_MM))
        self.both.add_widget(self.first)
        self.both.add_widget(self.second)
        self.add_widget(self.both)
        self.add_widget(self.standing)
        self.head.words.lines = self.head.where.lines = 3
        self._fit = Clock.create_trigger(lambda _: self._give_room(), -1)
        for part in (self, self.standing, self.second):
            part.bind(size=lambda *_: self._fit())

    def _make_tools(self) -> None:
        """Make the keys in the head: the jobs, the plan, the lock against rain."""
        self.keys: dict[str, TapKey] = {}
        for name, text, act in (
            ("jobs", say("Jobs"), lambda: self.shell.go("jobs")),
            ("plan", say("Plan"), lambda: self.shell.go("plan")),
            ("rain", say("Lock"), lambda: self.shell.lock()),
        ):
            key = TapKey(text=text, kind=ButtonKind.QUIET, wide_mm=16.0, cap_mm=CAP_LABEL_MM)
            key.bind(on_release=lambda _, do=act: do())
            self.head.tools.add_widget(key)
            self.keys[name] = key

    def _give_room(self) -> None:
        """Let go of what there is no room for: what waits first, the tiles, then the list.

        The caution has a place of its own, which the shell keeps.
        """
        self._fit_tiles()
        body = self.height - 2 * px(EDGE_MM) - self.head.height - px(GAP_MM)
        is_wide = self.shell.width >= self.shell.height
        self.both.orientation = "horizontal" if is_wide else "vertical"
        tiles = self.standing.height + px(GAP_MM)
        has_tiles = body - tiles >= px(KEY_MM)
        room = body - (tiles if has_tiles else 0)
        rows = px(len(self.ground.view.data) * (TOUCH_MM + GAP_MM))
        beside = room if is_wide else room - px(KEY_MM + 1.5 * GAP_MM)
        has_list = beside >= px(2 * TOUCH_MM + GAP_MM) or beside >= rows > 0
        wide = self.width - 2 * px(EDGE_MM)
        self.foot.height = self._foot_high((wide - px(1.5 * GAP_MM)) / 2 if is_wide else wide)
        spare = room - px(KEY_MM) if is_wide else beside - rows
        holder = self.first if is_wide else self.second
        fills = is_wide or not has_list
        self.first.size_hint = (1, 1 if fills else None)
        self.first.height = px(KEY_MM)
        place_in(self.standing, self, has_tiles, 0)
        place_in(self.second, self.both, has_list, 0)
        has_foot = has_list and bool(self.foot.text)
        place_in(self.foot, holder, has_foot and spare >= self.foot.height + px(GAP_MM), 0)

    def _foot_high(self, wide: float) -> float:
        size, font = font_px(CAP_LEAST_MM), font_for(self.foot.text)
        lines = lines_needed(self.foot.text, wide, size, False, font)
        return float(lines * text_size_px("Ag", size, False, font)[1] + px(1.0))

    def _fit_tiles(self) -> None:
        """Make the tiles as high as their words need."""
        needs = any(tile.needs_two_lines() for tile in self.standing.keys)
        self.standing.set_high(TALL_TILE_MM if needs else TOUCH_MM)

    def show(self, view: TodayView) -> None:
        """Show what was read, or what was last known."""
        self.head.title = view.job or say("No job open")
        self.head.place = view.day_words if view.is_live else say("opening the book ...")
        self.next.text = view.next_title or say("Open or start a job")
        self.next.note = view.next_detail
        self._next_tab = view.next_tab
        self.foot.text = view.exchange
        self.ground.show_rows([ground_row(row) for row in view.ground])
        self._show_standing(view.standing)
        self._fit()
        self.shell.count_flags(view.open_flags)
        if view.is_live:
            Clock.schedule_once(lambda _: self.shell.keep_today(view.to_plain()), 0)

    def _show_standing(self, standing: tuple[ReadinessRow, ...]) -> None:
        """Show how things stand on the tiles there are; make new ones only for more."""
        tiles = self.standing.keys[: len(standing)]
        while len(tiles) < len(standing):
            tile = StatusTile()
            tile.bind(on_release=lambda touched: self._lead(touched.leads_to))
            tiles.append(tile)
        for tile, row in zip(tiles, standing, strict=True):
            tile.name, tile.detail, tile.status = row.name, row.text, row.status
            tile.leads_to = row.leads_to or "flags"
        self.standing.show_keys(tiles)

    def _lead(self, place: str) -> None:
        """Go to a page, or to a part of it: ``day/tickets``."""
        page, _, part = place.partition("/")
        self.shell.go(page, **({"part": part} if part else {}))

    def _to_ground(self, key: str) -> None:
        sort, _, name = key.partition(":")
        if sort == "collector":
            self.shell.go("grade", collector_id=name)
        else:
            self.shell.go("pass", surface_id=name)


def ground_row(row: GroundRow) -> dict[str, Any]:
    """Return a surface or collector as a row of the list."""
    return {
        "key": row.key,
        "title": row.name,
        "detail": say("{done} of {planned}", done=row.done, planned=row.planned),
        "figure": f"{row.permille // 10} %",
        "status": row.status,
    }
