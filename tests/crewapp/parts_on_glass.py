"""Puts every part that is touched on a real window, one by one, and tells what it took.

Started by ``tests/crewapp/test_real_window.py``; the fields are those that the app asks for.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.crewapp import watched
from tests.crewapp.pads_on_glass import PADS, took

watched.settle()


def rain_lock() -> Any:
    """The rain lock's four keys."""
    from crewapp.pages.frame.rain_sheet import RainSheet

    sheet = RainSheet(inked="Inked 10:42")
    sheet.bind(on_do=lambda _, name: took("do", name))
    return sheet


def keys() -> Any:
    """Keys of every make, chips and choices."""
    from crewapp.kit.input.chips import Chip
    from crewapp.kit.keys.chip_row import ChipRow
    from crewapp.kit.keys.choice_row import ChoiceRow
    from crewapp.kit.keys.copy_key import CopyKey
    from crewapp.kit.keys.hold_key import HoldKey
    from crewapp.kit.keys.key_pages import KeyPages
    from crewapp.kit.keys.touchable import MainKey, TapKey, Touchable
    from crewapp.kit.marks.status_tile import StatusTile
    from crewapp.kit.panes.layout import Rows

    rows = Rows()
    made: list[Any] = [Touchable(text="bare"), TapKey(text="tap"), MainKey(text="main")]
    made += [StatusTile(name="tile"), CopyKey(text="copy", copied="a folder")]
    for key in made:
        key.size_hint_y, key.height = 1, 100
        key.bind(on_release=lambda one: took("key", one.text or one.name))
        rows.add_widget(key)
    chips = ChipRow([Chip(1, "8-1/8"), Chip(2, "8-1/4")])
    chips.bind(on_pick=lambda _, value, text: took("chip", text))
    choice = ChoiceRow([("one", "first"), ("two", "second")])
    choice.bind(on_pick=lambda _, name: took("choice", name))
    hold = HoldKey(text="held")
    hold.bind(on_held=lambda _: took("held"))
    paged = KeyPages(size_hint_y=None, height=90)
    paged.show_keys([TapKey(text=f"paged {number}") for number in range(12)])
    for part in (chips, choice, hold, paged):
        rows.add_widget(part)
    return rows


def frame() -> Any:
    """What stands round a page: tabs, the undo strip, the banner."""
    from kivy.uix.boxlayout import BoxLayout

    from crewapp.kit.gallery.pages import TABS
    from crewapp.kit.keys.tab_bar import TabBar
    from crewapp.kit.look.palette import Status
    from crewapp.kit.marks.banner import Banner
    from crewapp.kit.marks.undo_strip import UndoStrip

    tabs = TabBar(TABS, current="today", side="left", size_hint_x=0.2)
    tabs.bind(on_pick=lambda _, name: took("tab", name))
    strip = UndoStrip(text="Inked 10:42")
    strip.bind(on_undo=lambda _: took("undo"))
    banner = Banner(status=Status.OUT, title="Shallow", text="Cut it again.", answer="Seen")
    banner.bind(on_answered=lambda _: took("answered"))
    column, whole = BoxLayout(orientation="vertical"), BoxLayout()
    for part in (banner, strip):
        column.add_widget(part)
    for part in (column, tabs):
        whole.add_widget(part)
    return whole


def note() -> Any:
    """A note, typed on the keyboard after a click."""
    from crewapp.kit.text.text_area import TextArea

    area = TextArea(size_hint=(1, 1))
    area.bind(text=lambda _, text: took("note", text))
    return area


def signature() -> Any:
    """A place to sign."""
    from crewapp.kit.drawing.signature_pad import SignaturePad

    pad = SignaturePad(name="Foreman", size_hint=(1, 1))
    pad.bind(
        on_signed=lambda one: took(
            "strokes", len(one.strokes), all(len(s) > 5 for s in one.strokes)
        )
    )
    return pad


def plan() -> Any:
    """A plan to pull, enlarge and pick from."""
    from crewapp.kit.drawing.plan_canvas import PlanCanvas
    from crewapp.kit.drawing.plan_picture import PlanLine, PlanPicture

    outline = ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))
    lines = tuple(PlanLine(f"line {y}", ((0.0, y), (40.0, y))) for y in (5.0, 10.0, 15.0))
    view = PlanCanvas(picture=PlanPicture(outline, (), lines))
    view.bind(on_pick=lambda _, key: took("line", key))
    return view


def long_list() -> Any:
    """A list longer than the glass."""
    from crewapp.kit.lists.row_list import RowList

    rows = RowList()
    rows.show_rows([{"key": f"row {n}", "title": f"Row {n}"} for n in range(40)])
    rows.bind(on_pick=lambda _, key: took("row", key))
    return rows


def card() -> Any:
    """The outline of a bank card."""
    from crewapp.kit.marks.card_gauge import CardGauge

    gauge = CardGauge()
    gauge.bind(on_measured=lambda one, _: took("card", one.drawn_mm))
    return gauge


MADE: tuple[Callable[[], Any], ...] = (
    *PADS,
    *(rain_lock, keys, frame, note, signature, plan, long_list, card),
)
PARTS = {make.__name__: make for make in MADE}


class Glass:
    """Shows one part at a time, as large as the window."""

    def __init__(self) -> None:
        from kivy.uix.floatlayout import FloatLayout

        self.root = FloatLayout()
        self.seen: set[str] = set()

    def show(self, name: str) -> str:
        """Show another part in place of the one before."""
        self._note()
        self.root.clear_widgets()
        self.root.add_widget(PARTS[name]())
        return name

    def _note(self) -> list[str]:
        for one in self.root.walk():
            self.seen |= {base.__name__ for base in type(one).__mro__}
            if hasattr(one, "keypad"):
                self.seen.add(f"{one.keypad.spec.grammar.kind} pad")
        return sorted(self.seen)

    def answers(self) -> dict[str, watched.Answer]:
        """Return what can be asked."""
        return {
            "show": self.show,
            "at": lambda text: self._at(text),
            "plan": lambda _: self._plan(),
            "first": lambda _: self.root.children[0]._first(),
            "seen": lambda _: self._note(),
        }

    def _at(self, text: str) -> tuple[int, int] | None:
        """Find what bears a text, the middle of a line of the plan, or the key to the next rows."""
        from kivy.core.window import Window

        part = self.root.children[0]
        if text == "next rows":
            return int(part.down.center_x), int(Window.height - part.down.center_y)
        if text.startswith("line "):
            x, y = part._seen().place((20.0, float(text[5:])), part.center)
            return int(x), int(Window.height - y)
        return watched.place_in(self.root, text)

    def _plan(self) -> list[float]:
        seen = self.root.children[0]._seen()
        return [*seen.centre, seen.scale]


def main() -> None:
    """Open the window and wait for what is asked."""
    from kivy.app import App
    from kivy.clock import Clock
    from kivy.core.window import Window

    from crewapp.kit.keys.pointer import take_fingers_only

    Window.clearcolor = (1, 1, 1, 1)
    take_fingers_only()
    glass = Glass()
    watched.answer_to(glass.answers())

    class Parts(App):
        title = "parts"

        def build(self) -> Any:
            return glass.root

    Clock.schedule_once(lambda _: watched.tell("ready"), 0.5)
    Parts().run()


if __name__ == "__main__":
    main()
