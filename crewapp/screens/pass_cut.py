"""The next pass: which lines, how long the cut is; one tap or the pad inks it."""

from __future__ import annotations

from kivy.clock import Clock
from kivy.core.window import Window

from crewapp.palette import Kind
from crewapp.screens.parted_page import Part, Sides, Stack
from crewapp.state.slit_chips import length_chips
from crewapp.state.slit_pass import PassFace
from crewapp.theme import px
from crewapp.widgets.chip_row import ChipRow
from crewapp.widgets.layout import Columns, Rows, SectionRule
from crewapp.widgets.plan_view import PlanView
from crewapp.widgets.touchable import MainKey, TapKey
from crewapp.widgets.words import Words
from crewapp.wording import say


class CutPart(Part):
    """Lines proposed on the plan; chips of length on a field; the pad for any other."""

    def build(self) -> None:
        """Make the plan with the keys of choice, and the ways to a length."""
        self.plan = PlanView(has_keys=False)
        self.plan.bind(on_pick=lambda _, key: self._pick(key))
        self.other = TapKey(text=say("Other lines"))
        self.other.bind(on_release=lambda _: self.page.turn_to("lines"))
        self.more = TapKey(text=say("More"), kind=Kind.QUIET)
        self.more.bind(on_release=lambda _: self.page.turn_to("more"))
        left, row = Rows(), Columns(high_mm=15.0)
        row.add_widget(self.other)
        row.add_widget(self.more)
        left.add_widget(self.plan)
        left.add_widget(row)
        self.rule = SectionRule()
        self.say_next = Words(cap_mm=4.2, lines=4, grows=True)
        self.chips = ChipRow(cap_mm=4.2)
        self.chips.bind(on_pick=lambda _, value, text: self.page.cut(value, text))
        self.main = MainKey(text="")
        self.main.bind(on_release=lambda _: self._main())
        self.second = TapKey(text=say("Cut without lifting"), is_logging=False)
        self.second.bind(on_release=lambda _: self.page.ask("length"))
        self.side = Stack()
        self._refill = Clock.create_trigger(lambda _: self._again(), -1)
        self.bind(height=lambda *_: self._refill())
        self.add_widget(Sides(left, self.side, share=0.34, high_share=0.4))

    def _again(self) -> None:
        if self.parent is not None and self.page.told is not None:
            self.fill(self.page.told)

    def title(self, face: PassFace) -> str:
        """Name the lines to cut."""
        return say("Next: {lines}", lines=", ".join(face.picked)) if face.picked else say("Pass")

    def place(self, face: PassFace) -> str:
        """Name the ground and the machine."""
        return " \u00b7 ".join(name for name in (face.surface_name, face.machine_id) if name)

    def fill(self, face: PassFace) -> None:
        """Show the lines, and the way to the length that suits the ground."""
        self.plan.picture = face.picture
        self.other.disabled = not face.lines
        self.side.clear_widgets()
        if not face.picked:
            self.say_next.text = nothing_left(face)
            self.side.add_widget(self.say_next)
            return
        planned = face.figures.length(face.planned_nm)
        if face.is_strip_first:
            self.say_next.text = say("Lift the turf strip over these lines before the cut.")
            self.main.text, self.main.note = say("Turf lifted"), ", ".join(face.picked)
            parts = [self.say_next, self.main, self.second]
        else:
            self.rule.text = say("How long is the cut?")
            self.main.text, self.main.note = say("Cut: type the length"), self._noted(planned)
            chips = length_chips(face) if face.ground != "green" else ()
            self.chips.show_chips(chips)
            self.say_next.text = "" if chips else say("Measure it along one line.")
            middle = self.chips if chips else self.say_next
            has_rule = self.height >= px(76.0 if Window.width >= Window.height else 128.0)
            parts = [*([self.rule] if has_rule else []), middle, self.main]
        for part in parts:
            self.side.add_widget(part)

    def _noted(self, planned: str) -> str:
        """Say what was planned, and the shift that goes with it."""
        shift = self.page.chosen("shift_typed")
        if shift:
            return say("planned {length}, shift {shift}", length=planned, shift=shift)
        return say("planned {length}", length=planned)

    def _main(self) -> None:
        face = self.page.told
        if face.is_strip_first:
            self.page.act(
                "slits:log_turf",
                surface_id=face.surface_id,
                line_ids=face.picked,
                step="lifted",
            )
        else:
            self.page.ask("length")

    def _pick(self, line_id: str) -> None:
        """Begin at the line tapped: choose the lines one by one from there."""
        face = self.page.told
        if any(line.line_id == line_id for line in face.lines):
            self.page.keep_draft(picked=[line_id])
            self.page.turn_to("lines")
            self.page.refresh()


def nothing_left(face: PassFace) -> str:
    """Say why there is nothing to cut."""
    if not face.surface_id:
        return say("This job has no surface with planned lines yet. Set it up on the Jobs page.")
    return say("Every line of this kind is cut. Choose another surface or kind under More.")
