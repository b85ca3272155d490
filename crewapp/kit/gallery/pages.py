"""The pages of the gallery: invented figures in every widget and state."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from kivy.clock import Clock
from kivy.uix.floatlayout import FloatLayout
from kivy.uix.widget import Widget

from crewapp.kit.drawing.drawing_canvas import ProfileCanvas
from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.drawing.signature_pad import SignaturePad
from crewapp.kit.gallery.drawings import plan_picture, two_strips
from crewapp.kit.input.chips import INCH_STEPS_NM, chips
from crewapp.kit.input.key_grammar import Grammar, KeyKind
from crewapp.kit.input.keypad_value import FieldSpec, KeypadState
from crewapp.kit.input.plausible import Band, Bands
from crewapp.kit.keys.chip_row import ChipRow
from crewapp.kit.keys.hold_key import HoldKey
from crewapp.kit.keys.keypad import Keypad
from crewapp.kit.keys.tab_bar import FOOT_MM, RAIL_MM, Tab, TabBar
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import EDGE_MM, ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.banner import Banner
from crewapp.kit.marks.card_gauge import CardGauge
from crewapp.kit.marks.status_mark import StatusMark
from crewapp.kit.marks.undo_strip import UndoStrip
from crewapp.kit.panes.layout import Columns, Page, Rows, SectionRule, TwoPanes
from crewapp.kit.text.text_area import TextArea
from crewapp.kit.text.value_line import ValueLine
from models.units.station import StationStyle, parse_station, show_station

INCH_NM = 25_400_000
TABS = (
    Tab("today", "Today"),
    Tab("pass", "Pass"),
    Tab("grade", "Grade"),
    Tab("loads", "Loads"),
    Tab("day", "Day"),
    Tab("flags", "Flags", 3),
    Tab("jobs", "Jobs"),
    Tab("settings", "Settings"),
)


def read_inches(text: str) -> int:
    """Read ``8-1/2`` as base units, for the gallery alone."""
    whole, _, part = text.partition("-")
    if "/" in whole:
        whole, part = "0", whole
    value = Fraction(whole or "0") + (Fraction(part) if part else 0)
    return int(value * INCH_NM)


def show_inches(value: int) -> str:
    """Write base units as inches and a fraction, for the gallery alone."""
    whole, rest = divmod(Fraction(value, INCH_NM), 1)
    return f"{whole}-{rest} in" if whole and rest else f"{rest or whole} in"


DEPTH = FieldSpec(
    name="Depth",
    unit="in",
    grammar=Grammar(KeyKind.INCHES, whole_digits=2),
    parse=read_inches,
    show=show_inches,
    echo=lambda value: f"{value / 304_800_000:.2f} ft",
    bands=Bands(Band(2 * INCH_NM, 24 * INCH_NM), Band(7 * INCH_NM, 11 * INCH_NM), 9 * INCH_NM),
)


class JobWorker(FloatLayout):
    """A page with the tabs along its edge, as the app's own frame has it."""

    def __init__(self, page: Widget, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.page, self.tabs = page, TabBar(TABS, current="pass")
        page.size_hint = self.tabs.size_hint = (None, None)
        self.add_widget(page)
        self.add_widget(self.tabs)
        self.bind(size=Clock.create_trigger(self._place, -1))

    def _place(self, *_: object) -> None:
        margin = px(EDGE_MM)
        if self.width >= self.height:
            rail = px(RAIL_MM)
            self.tabs.side = "right"
            self.tabs.pos, self.tabs.size = (margin, margin), (rail, self.height - 2 * margin)
            self.page.pos, self.page.size = (
                (margin + rail, 0),
                (self.width - margin - rail, self.height),
            )
        else:
            foot = px(FOOT_MM)
            self.tabs.side = "top"
            self.tabs.pos, self.tabs.size = (margin, margin), (self.width - 2 * margin, foot)
            self.page.pos, self.page.size = (
                (0, margin + foot),
                (self.width, self.height - margin - foot),
            )


def entry_page() -> Widget:
    """A pass being logged: value, verdicts, chips, undo."""
    page = Page("Pass 12", "North green, line 12 of 48")
    left = Rows()
    left.add_widget(
        ValueLine(
            name="Probe 3 of 5, at 10 ft", value="8-1/8", unit="in", echo="= 0.68 ft", high_mm=24.0
        )
    )
    left.add_widget(StatusMark(status=Status.OK, text="in tolerance"))
    left.add_widget(Widget())
    right = Rows()
    made = chips(
        9 * INCH_NM,
        71 * INCH_NM // 8,
        73 * INCH_NM // 8,
        INCH_STEPS_NM,
        lambda v: show_inches(v)[:-3],
    )
    right.add_widget(ChipRow(made))
    row = Columns(high_mm=15.0)
    row.add_widget(TapKey(text="Keypad"))
    row.add_widget(TapKey(text="Skip", kind=ButtonKind.QUIET))
    right.add_widget(Widget())
    right.add_widget(row)
    page.add_widget(TwoPanes(left, right, share=0.36, high_share=0))
    page.add_widget(UndoStrip(text="Inked 10:42: depth 8-1/8 in at 10 ft, line 12"))
    return JobWorker(page)


def states_page() -> Widget:
    """The four states, and a section."""
    page = Page("States", "shape, word and colour")
    rows = Rows()
    for status in Status:
        rows.add_widget(StatusMark(status=status))
    rows.add_widget(Widget(size_hint_y=0.001))
    other = Rows()
    other.add_widget(SectionRule(text="Sand placed", figure="4.2 of 9.0 tons"))
    other.add_widget(StatusMark(status=Status.OUT, text="3/4 in shallow"))
    other.add_widget(ValueLine(name="Ticket", value="", unit="tons", is_typing=True))
    other.add_widget(Widget())
    page.add_widget(TwoPanes(rows, other, high_share=0))
    return JobWorker(page)


def marks_page() -> Widget:
    """Marks, buttons, banners, notes."""
    page = Page("Keys", "one of each kind")
    left, right = Rows(), Rows()
    left.add_widget(
        Banner(
            status=Status.OUT,
            title="Line 12 is shallow",
            text="7-1/4 in at 10 ft; limit 8-1/2 in. Cut it again.",
            answer="Answer",
        )
    )
    left.add_widget(TextArea(text="Hit a wire at 31 ft, marked with a flag."))
    left.add_widget(Widget())
    right.add_widget(MainKey(text="Log this pass", note="48.0 ft, line 12"))
    row = Columns(high_mm=15.0)
    row.add_widget(TapKey(text="Plain"))
    row.add_widget(TapKey(text="Quiet", kind=ButtonKind.QUIET))
    row.add_widget(TapKey(text="Off", disabled=True))
    right.add_widget(row)
    right.add_widget(Widget())
    hold = HoldKey(text="Close the day", note="hold")
    hold.progress = 0.6
    right.add_widget(hold)
    page.add_widget(TwoPanes(left, right, high_share=0))
    return JobWorker(page)


def rows_page() -> Widget:
    """A list that is longer than the page, and a signature."""
    page = Page("Flags", "worst first")
    rows = RowList()
    states = (Status.OUT, Status.CHECK, Status.NOT_MEASURED, Status.OK)
    rows.show_rows(
        [
            {
                "key": str(n),
                "title": f"Line {n}: depth under tolerance",
                "detail": "7-1/4 in at 10 ft",
                "figure": "\u22121-1/4 in",
                "status": states[n % 4],
                "is_struck": n == 2,
            }
            for n in range(14)
        ]
    )
    pad = SignaturePad(name="Foreman", high_mm=40.0)
    pad.strokes = [
        [(120 + i * 7, int(450 + 200 * math.sin(i / 4) * math.exp(-i / 60))) for i in range(90)]
    ]
    right = Rows()
    right.add_widget(SectionRule(text="Signed"))
    right.add_widget(pad)
    right.add_widget(Widget())
    page.add_widget(TwoPanes(rows, right, share=0.6, high_share=0.52))
    return JobWorker(page)


def drawing_page() -> Widget:
    """The plan and the two strips."""
    page = Page("Grade", "Collector A, 0+00 at the outlet")
    left = PlanCanvas(picture=plan_picture())
    page.add_widget(TwoPanes(left, ProfileCanvas(layout=two_strips), share=0.45))
    return JobWorker(page)


def pad_page(*keys: str, enter: bool = False) -> Widget:
    """The keypad alone, some keys pressed."""
    state = KeypadState(DEPTH)
    for number, key in enumerate(keys):
        state = state.press(key, number * 1000)
    if enter:
        state = state.enter(99_000)
    return with_margin(Keypad(state, place="line 12 at 10 ft"))


def with_margin(part: Widget) -> Widget:
    """Return a part alone on the glass, its edge kept free."""
    holder = FloatLayout()
    part.size_hint = (None, None)
    holder.add_widget(part)
    margin = px(EDGE_MM)

    def place(*_: object) -> None:
        part.pos = (margin, margin)
        part.size = (holder.width - 2 * margin, holder.height - 2 * margin)

    holder.bind(size=place)
    return holder


def station_page() -> Widget:
    """The pad for a station."""
    style = StationStyle.US_100FT
    spec = FieldSpec(
        name="Station",
        unit="ft",
        grammar=Grammar(KeyKind.STATION),
        parse=lambda text: parse_station(text, style),
        show=lambda value: show_station(value, style, 2),
    )
    return with_margin(Keypad(KeypadState.resume(spec, "1+25.5"), place="collector A"))


def card_page() -> Widget:
    """The outline of a bank card."""
    return with_margin(CardGauge())


PAGES: dict[str, Callable[[], Widget]] = {
    "entry": entry_page,
    "states": states_page,
    "marks": marks_page,
    "rows": rows_page,
    "drawing": drawing_page,
    "pad": lambda: pad_page("8", "1/8", "3"),
    "asked": lambda: pad_page("9", "0", enter=True),
    "station": station_page,
    "card": card_page,
    "odd": lambda: pad_page("1", "2", enter=True),
}
