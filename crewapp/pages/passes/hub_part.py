"""The open pass: how each step of it stands, and the one tap that ends it."""

from __future__ import annotations

from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.lists.list_row import ListRow
from crewapp.kit.look.palette import KEY_MM, ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.passes.view import (
    PassCard,
    PassView,
    count_probes,
    next_step,
    next_turf,
    probes_left,
    probes_status,
)
from crewapp.words.translate import say


class HubPart(Part):
    """Tiles for the steps; the next step black; Pass done beside it."""

    def build(self) -> None:
        """Make the tiles and the two keys."""
        self.tiles = {
            name: ListRow(key=name, pick=self._open)
            for name in ("probe", "pipe", "sand", "finish", "written", "choose")
        }
        self.grid = KeyGrid(least_wide_mm=40.0)
        self.plan = PlanCanvas(has_keys=False)
        self.next = MainKey(text="", is_logging=False)
        self.next.bind(on_release=lambda _: self.page.turn_to(self.leads_to))
        self.done = MainKey(text=say("Pass done"), is_logging=False)
        self.done.bind(on_release=lambda _: self.page.next_pass())
        self.row = Columns(high_mm=KEY_MM)
        self.leads_to: str = "probe"
        self.holder = Widget()
        self.add_widget(self.grid)
        self.add_widget(self.holder)
        self.add_widget(self.row)
        self.holder.bind(pos=self._show_plan, size=self._show_plan)

    def title(self, view: PassView) -> str:
        """Return the title: the pass's name."""
        return say("Pass {name}", name=self.page.card.pass_id)

    def place(self, view: PassView) -> str:
        """Name its lines and its length."""
        card = self.page.card
        lines = ", ".join(line.line_id for line in card.lines)
        return say("{lines}, {length}", lines=lines, length=view.figures.length(card.length_nm))

    def fill(self, view: PassView) -> None:
        """Show how each step stands."""
        card = self.page.card
        told = step_rows(card, view)
        for name, (title, detail, status) in told.items():
            tile = self.tiles[name]
            tile.title, tile.detail, tile.status = title, detail, status
        self.grid.show_keys([self.tiles[name] for name in told])
        self.plan.picture = view.picture
        self.leads_to = next_step(card, view.ground, view.figures)
        self.row.clear_widgets()
        if self.leads_to:
            self.next.text = told[self.leads_to][0]
            self.next.note = told[self.leads_to][1]
            self.row.add_widget(self.next)
        self.done.kind = ButtonKind.PLAIN if self.leads_to else ButtonKind.PRIMARY
        left = probes_left(card, view.figures)
        self.done.note = say("{count:probe|probes} missing", count=left) if left else ""
        self.row.add_widget(self.done)

    def _show_plan(self, *_: object) -> None:
        """Use what room is left for the plan, if it is enough to see it."""
        is_shown = self.holder.height > px(20.0)
        if is_shown != (self.plan.parent is self.holder):
            (self.holder.add_widget if is_shown else self.holder.remove_widget)(self.plan)
        self.plan.pos, self.plan.size = self.holder.pos, self.holder.size

    def _open(self, name: str) -> None:
        if name == "choose":
            self.page.turn_to("choose", choosing="pass")
        else:
            self.page.turn_to(name)


def step_rows(card: PassCard, view: PassView) -> dict[str, tuple[str, str, Any]]:
    """Return title, detail and state of each step that this pass has."""
    taken, left = count_probes(card), probes_left(card, view.figures)
    told: dict[str, tuple[str, str, Any]] = {
        "probe": (
            say("Probes"),
            say("{taken} of {count}", taken=taken, count=taken + left),
            probes_status(card),
        )
    }
    piped = [line for line in card.lines if line.use == "piped_slit"]
    if piped:
        laid = sum(bool(line.pipe_text) for line in piped)
        status = Status.OK if laid == len(piped) else Status.NOT_MEASURED
        text = say("{laid} of {count:line|lines}", laid=laid, count=len(piped))
        told["pipe"] = (say("Pipe"), text, status)
    share = say("{share} full", share=card.sand.share) if card.sand.share else card.sand.text
    told["sand"] = (say("Sand"), share, card.sand.status)
    told["finish"] = _finish_told(card, view)
    told["written"] = (say("Written"), say("{count:entry|entries}", count=len(card.written)), "")
    told["choose"] = (say("Passes cut"), say("{count} here", count=len(view.passes)), "")
    return told


def _finish_told(card: PassCard, view: PassView) -> tuple[str, str, Any]:
    watered = say("watered in") if card.is_watered else say("not watered")
    if view.ground != "green":
        status = Status.OK if card.is_watered else Status.NOT_MEASURED
        return say("Water"), watered, status
    step = next_turf(card)
    words = {"lifted": say("not lifted"), "put_back": say("strip is off"), "rolled": say("lies")}
    status = Status.NOT_MEASURED if step else Status.OK
    return say("Turf and water"), words.get(step, say("rolled")), status
