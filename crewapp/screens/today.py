"""Today: what is done, what is left, and the one next thing as the largest target."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.clock import Clock

from crewapp.palette import CAP_LABEL_MM, KEY_MM, TOUCH_MM, Kind
from crewapp.screens.page import ScreenPage
from crewapp.state.today import GroundRow, Standing, TodayFace
from crewapp.theme import px
from crewapp.widgets.key_grid import KeyGrid
from crewapp.widgets.layout import Rows, SectionRule, Turning
from crewapp.widgets.row_list import RowList
from crewapp.widgets.stand_tile import StandTile
from crewapp.widgets.touchable import MainKey, TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say

TILE_MM = 28.0


class TodayPage(ScreenPage):
    """The morning's page."""

    name: ClassVar[str] = "today"
    face: ClassVar[str] = "today:today_face"

    def build(self) -> None:
        """Make the next thing, the ground and what stands."""
        self.head.title = say("Today")
        for text, place in ((say("Jobs"), "jobs"), (say("Settings"), "settings")):
            key = TapKey(text=text, kind=Kind.QUIET, wide_mm=21.0, cap_mm=CAP_LABEL_MM)
            key.bind(on_release=lambda _, name=place: self.shell.go(name))
            self.head.tools.add_widget(key)
        self.next = MainKey(
            text="", is_logging=False, cap_mm=6.0, size_hint_y=1, size_hint_min_y=px(KEY_MM)
        )
        self.next.bind(on_release=lambda _: self.shell.go(self._next_tab))
        self._next_tab = "jobs"
        self.standing = KeyGrid(least_wide_mm=TILE_MM, high_mm=TOUCH_MM)
        self.ground = RowList(TOUCH_MM)
        self.ground.bind(on_pick=lambda _, key: self._to_ground(key))
        self.foot = Words(text=caution(), cap_mm=2.9, lines=4, size_hint_y=None, height=px(12.0))
        first, second = Rows(), Rows()
        for part in (self.next, self.standing, self.foot):
            first.add_widget(part)
        second.add_widget(SectionRule(text=say("Done and left")))
        second.add_widget(self.ground)
        self.add_widget(Turning(first, second, share=0.5, high_share=0.0))
        self.head.words.lines = 3

    def show(self, face: TodayFace) -> None:
        """Show what was read, or what was last known."""
        self.head.title = face.job or say("No job open")
        live = face.day if face.is_live else say("opening the book ...")
        self.head.place = say("{day}, closed", day=live) if face.is_closed else live
        self.next.text = face.next_title or say("Open or start a job")
        self.next.note = face.next_detail
        self._next_tab = face.next_tab
        self.ground.show_rows([ground_row(row) for row in face.ground])
        self._show_standing(face.standing)
        self.shell.count_flags(face.open_flags)
        if face.is_live:
            Clock.schedule_once(lambda _: self.shell.keep_today(face.to_plain()), 0)

    def _show_standing(self, standing: tuple[Standing, ...]) -> None:
        """Show how things stand on the tiles there are; make new ones only for more."""
        tiles = self.standing.keys[: len(standing)]
        while len(tiles) < len(standing):
            tile = StandTile()
            tile.bind(on_release=lambda touched: self.shell.go(touched.leads_to))
            tiles.append(tile)
        for tile, row in zip(tiles, standing, strict=True):
            tile.name, tile.detail, tile.status = row.name, row.text, row.status
            tile.leads_to = row.leads_to or "flags"
        self.standing.show_keys(tiles)

    def _to_ground(self, key: str) -> None:
        sort, _, name = key.partition(":")
        if sort == "collector":
            self.shell.go("grade", collector_id=name)
        else:
            self.shell.go("pass", surface_id=name)


def ground_row(row: GroundRow) -> dict[str, Any]:
    """One surface or collector as a row of the list."""
    return {
        "key": row.key,
        "title": row.name,
        "detail": say("{done} of {planned}", done=row.done, planned=row.planned),
        "figure": f"{row.permille // 10} %",
        "status": row.status,
    }


def caution() -> str:
    """The usual cautions in one breath; the day sheet has them in full."""
    return say(
        "Dig only inside the marks. Keep out of unprotected trenches. "
        "No dry sand dust. Local rules go first."
    )
