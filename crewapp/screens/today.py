"""Today: what is done, what is left, and the one next thing as the largest target."""

from __future__ import annotations

from typing import Any, ClassVar

from kivy.clock import Clock

from crewapp.palette import CAP_LABEL_MM, TOUCH_MM, Kind
from crewapp.screens.page import ScreenPage
from crewapp.state.today import GroundRow, Standing, TodayFace
from crewapp.theme import px
from crewapp.widgets.layout import Rows, SectionRule, Turning
from crewapp.widgets.row_list import RowList
from crewapp.widgets.touchable import MainKey, TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say


class TodayPage(ScreenPage):
    """The morning's page."""

    name: ClassVar[str] = "today"
    face: ClassVar[str] = "today:today_face"

    def build(self) -> None:
        """Make the next thing, the ground and what stands."""
        self.head.title = say("Today")
        for text, place in ((say("Jobs"), "jobs"), (say("Settings"), "settings")):
            key = TapKey(text=text, kind=Kind.QUIET, wide_mm=24.0, cap_mm=CAP_LABEL_MM)
            key.bind(on_release=lambda _, name=place: self.shell.go(name))
            self.head.tools.add_widget(key)
        self.next = MainKey(text="", high_mm=26.0, is_logging=False)
        self.next.bind(on_release=lambda _: self.shell.go(self._next_tab))
        self._next_tab = "jobs"
        self.ground = RowList(TOUCH_MM)
        self.ground.bind(on_pick=lambda _, key: self._to_ground(key))
        self.standing = RowList(TOUCH_MM)
        self.standing.bind(on_pick=lambda _, key: self.shell.go(key or "flags"))
        left, right = Rows(), Rows()
        left.add_widget(SectionRule(text=say("Done and left")))
        left.add_widget(self.ground)
        right.add_widget(SectionRule(text=say("How it stands")))
        right.add_widget(self.standing)
        self.add_widget(self.next)
        self.add_widget(Turning(left, right, share=0.5, high_share=0.45))
        self.foot = Words(text=caution(), cap_mm=2.9, lines=2, size_hint_y=None, height=px(10.0))
        self.add_widget(self.foot)

    def show(self, face: TodayFace) -> None:
        """Show what was read, or what was last known."""
        self.head.title = face.job or say("No job open")
        live = face.day if face.is_live else say("opening the book ...")
        self.head.place = say("{day}, closed", day=live) if face.is_closed else live
        self.next.text = face.next_title or say("Open or start a job")
        self.next.note = face.next_detail
        self._next_tab = face.next_tab
        self.ground.show_rows([ground_row(row) for row in face.ground])
        self.standing.show_rows([standing_row(row) for row in face.standing])
        self.shell.count_flags(face.open_flags)
        if face.is_live:
            Clock.schedule_once(lambda _: self.shell.keep_today(face.to_plain()), 0)

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
        "detail": say("{done} done, {left}", done=row.done, left=row.left),
        "figure": f"{row.permille // 10} %",
        "status": row.status,
    }


def standing_row(row: Standing) -> dict[str, Any]:
    """One thing to know in the morning as a row of the list."""
    return {"key": row.leads_to, "title": row.name, "detail": row.text, "status": row.status}


def caution() -> str:
    """The usual cautions in one breath; the day sheet has them in full."""
    return say(
        "Dig only inside marked ground. Nobody enters an unprotected trench. "
        "Keep dry sand dust out of lungs. Local rules go first."
    )
