"""The next pass: which lines, how long the cut is; one tap or the pad inks it."""

from __future__ import annotations

from kivy.clock import Clock
from kivy.core.window import Window
from kivy.uix.widget import Widget

from crewapp.commands.passes import LogTurf
from crewapp.kit.drawing.plan_canvas import PlanCanvas
from crewapp.kit.keys.chip_row import ChipRow
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.palette import ButtonKind, Status
from crewapp.kit.look.theme import px
from crewapp.kit.marks.mark_line import MarkLine
from crewapp.kit.marks.notice_strip import NoticeStrip
from crewapp.kit.marks.status_tile import StatusTile
from crewapp.kit.panes.layout import Columns, Rows, SectionRule, place_in
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.pages.passes.chips import length_chips
from crewapp.pages.passes.view import PassView
from crewapp.words.translate import say

TALL_TILE_MM, LINE_MM = 18.0, 5.0
ROOMY_MM = 128.0
"""Held upright, with less height than this the go-ahead is a line, or stands for the plan."""


class CutPart(Part):
    """Lines proposed on the plan; chips of length on a field; the pad for any other."""

    def build(self) -> None:
        """Make the plan with the keys of choice, and the ways to a length."""
        self.plan = PlanCanvas(has_keys=False)
        self.plan.bind(on_pick=lambda _, key: self._pick(key))
        self.other = TapKey(text=say("Other lines"))
        self.other.bind(on_release=lambda _: self.page.turn_to("lines"))
        self.more = TapKey(text=say("More"), kind=ButtonKind.QUIET)
        self.more.bind(on_release=lambda _: self.page.turn_to("more"))
        self._make_ahead()
        self.left, row = Rows(), Columns(high_mm=15.0)
        row.add_widget(self.other)
        row.add_widget(self.more)
        for part in (self.plan, self.ahead, row):
            self.left.add_widget(part)
        self.rule = SectionRule()
        self.say_next = TextLabel(cap_mm=4.2, lines=4, grows=True)
        self.chips = ChipRow(cap_mm=4.2)
        self.chips.bind(on_pick=lambda _, value, text: self.page.cut(value, text))
        self.main = MainKey(text="")
        self.main.bind(on_release=lambda _: self._main())
        self.second = TapKey(text=say("Cut without lifting"), is_logging=False)
        self.second.bind(on_release=lambda _: self.page.ask("length"))
        self._make_pieces()
        self.side = Stack()
        self._refill = Clock.create_trigger(lambda _: self._again(), -1)
        self.bind(height=lambda *_: self._refill())
        self.add_widget(PartPanes(self.left, self.side, share=0.34, high_share=0.365))

    def _make_pieces(self) -> None:
        """Make the key to the pieces of a drive that one length says too little of."""
        self.pieces = TapKey(text=say("Pieces, from the stakes"), is_logging=False)
        self.pieces.bind(on_release=lambda _: self.page.turn_to("drive"))

    def _make_ahead(self) -> None:
        """Make the tile of the go-ahead, and what stands in place of the cut without it."""
        self.ahead = StatusTile(high_mm=TALL_TILE_MM)
        self.good = MarkLine(size_hint=(1, None), height=px(LINE_MM))
        self.line = NoticeStrip(status=Status.OUT)
        self.mend = MainKey(text="", is_logging=False)
        for key in (self.ahead, self.mend):
            key.bind(on_release=lambda _: self._to_tickets())
        self.anyway = TapKey(text=say("Go on anyway"), kind=ButtonKind.QUIET)
        self.anyway.bind(on_release=lambda _: self.page.turn_to("anyway"))
        self.no_cut = (self.line, self.mend, self.anyway)

    def _again(self) -> None:
        if self.parent is not None and self.page.view is not None:
            self.fill(self.page.view)

    def title(self, view: PassView) -> str:
        """Name the lines to cut."""
        return say("Next: {lines}", lines=", ".join(view.picked)) if view.picked else say("Pass")

    def place(self, view: PassView) -> str:
        """Name the ground and the machine."""
        return " \u00b7 ".join(name for name in (view.surface_name, view.machine_id) if name)

    def fill(self, view: PassView) -> None:
        """Show the lines, and the way to the length that suits the ground."""
        self.plan.picture = view.picture
        self.other.disabled = not view.lines
        self.side.clear_widgets()
        self._show_ahead(view.ahead)
        if view.ahead is not None and view.ahead.is_no:
            for no_cut in self.no_cut:
                self.side.add_widget(no_cut)
            return
        if not view.picked:
            self.say_next.text = no_lines_text(view)
            self.side.add_widget(self.say_next)
            return
        for part in self._ways(view):
            self.side.add_widget(part)

    def _ways(self, view: PassView) -> list[Widget]:
        """Say how the cut is logged: the turf first, or the length by a chip or the pad."""
        if view.is_strip_first:
            self.say_next.text = say("Lift the turf strip over these lines before the cut.")
            self.main.text, self.main.note = say("Turf lifted"), ", ".join(view.picked)
            return [self.say_next, self.main, self.second]
        self.rule.text = say("How far was driven?")
        planned = view.figures.length(view.planned_nm)
        self.main.text, self.main.note = say("Cut: type the length"), self._noted(planned)
        chips = length_chips(view) if view.ground != "green" else ()
        self.chips.show_chips(chips)
        self.say_next.text = "" if chips else say("Measure from first blade in to last out.")
        has_rule = self.height >= px(76.0 if Window.width >= Window.height else ROOMY_MM)
        rule = [self.rule] if has_rule else []
        return [*rule, self.chips if chips else self.say_next, self.main, *self._unequal(view)]

    def _unequal(self, view: PassView) -> list[Widget]:
        """Show what each piece comes to, where one length says too little."""
        if not view.has_unequal_pieces:
            return []
        self.pieces.note = ", ".join(
            f"{one.line_id} {view.figures.length(one.to_nm - one.from_nm)}"
            for one in view.drive.stretches
        )
        return [self.pieces]

    def _show_ahead(self, ahead: GoAheadView | None) -> None:
        """Say whether the pass may be cut: on a tile, or in place of the cut while it may not."""
        may_cut = ahead is not None and not ahead.is_no
        is_narrow = Window.width < Window.height and self.height < px(ROOMY_MM)
        is_short = is_narrow and ahead is not None and ahead.status == Status.OK
        place_in(self.ahead, self.left, may_cut and not is_short, 1)
        place_in(self.good, self.left, may_cut and is_short, 1)
        place_in(
            self.plan, self.left, not (is_narrow and may_cut) or is_short, len(self.left.children)
        )
        if ahead is None:
            return
        tile, line = self.ahead, self.line
        tile.status, tile.name, tile.detail = ahead.status, ahead.title, ahead.text
        self.good.status, self.good.text = ahead.status, ahead.sentence
        line.title, line.text, self.mend.text = ahead.title, ahead.text, ahead.mend

    def _to_tickets(self) -> None:
        """Go where a ticket is entered; where one is in date, to the list of them."""
        is_no = self.page.blocking_go_ahead() is not None
        self.page.shell.go("day", **({"form": "ticket"} if is_no else {"part": "tickets"}))

    def _noted(self, planned: str) -> str:
        """Say what was planned, and the shift that goes with it."""
        shift = self.page.choice_of("shift_typed")
        if shift:
            return say("planned {length}, shift {shift}", length=planned, shift=shift)
        return say("planned {length}", length=planned)

    def _main(self) -> None:
        view = self.page.view
        if view.is_strip_first:
            self.page.do(LogTurf(surface_id=view.surface_id, line_ids=view.picked, step="lifted"))
        else:
            self.page.ask("length")

    def _pick(self, line_id: str) -> None:
        """Begin at the line tapped: choose the lines one by one from there."""
        view = self.page.view
        if any(line.line_id == line_id for line in view.lines):
            self.page.keep_draft(picked=[line_id])
            self.page.turn_to("lines")
            self.page.refresh()


def no_lines_text(view: PassView) -> str:
    """Say why there is nothing to cut."""
    if not view.surface_id:
        return say("This job has no surface with planned lines yet. Set it up on the Jobs page.")
    return say("Every line of this kind is cut. Choose another surface or kind under More.")
