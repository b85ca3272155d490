"""A part that asks one question at a time, then shows what was answered and inks it."""

from __future__ import annotations

from typing import Any

from kivy.uix.widget import Widget

from crewapp.kit.input.forms import AnswerKind, Form, Step, has_answer
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.key_pages import KeyPages
from crewapp.kit.keys.touchable import MainKey, TapKey
from crewapp.kit.look.palette import GAP_MM, KEY_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns, TwoPanes
from crewapp.kit.text.danger_note import DangerNote
from crewapp.kit.text.text_area import TextArea
from crewapp.pages.frame.parted_page import Part
from crewapp.words.translate import say

ANSWER_MM = 19.0


class FormPart(Part):
    """Shows the form that ``page.filling`` (a ``FormFilling``) is at.

    Large keys for the answers of one question; the summary shows every question
    with its answer, a tap on one asks it again.
    """

    back = "menu"
    needs_mm = (50.0, 70.0)

    def build(self) -> None:
        """Make the question, the keys and the foot."""
        self.danger = DangerNote()
        self.text = TextArea(size_hint_y=1)
        self.text.bind(text=lambda _, text: self._typed(text))
        self.keys = KeyPages(least_wide_mm=30.0)
        self.body: Widget = self.keys
        self.laid = (False, True)
        self.foot = Columns(high_mm=TOUCH_MM)
        self.main = MainKey(text=say("Ink it"))
        self.main.bind(on_release=lambda _: self.page.filling.ink())
        self.go_on = MainKey(text=say("Done, go on"), is_logging=False)
        self.go_on.bind(on_release=lambda _: self.page.filling.accept_warning())
        self.clear = TapKey(text=say("Clear"), kind=ButtonKind.QUIET, high_mm=KEY_MM, wide_mm=30.0)
        self.clear.bind(on_release=lambda _: self.page.filling.clear())
        self.pad = self._foot_key(say("Number pad"), lambda: self.page.filling.ask_figure())
        self.write = self._foot_key(say("Write it"), lambda: self.page.filling.begin_writing())
        self.done = self._foot_key(say("Done"), lambda: self.page.filling.go_on())
        self.made: tuple[Any, ...] = ()

    @staticmethod
    def _foot_key(text: str, act: Any) -> TapKey:
        key = TapKey(text=text, kind=ButtonKind.PLAIN)
        key.bind(on_release=lambda _: act())
        return key

    def title(self, view: Any) -> str:
        """Ask the question, or name what is logged."""
        form, step = self.page.filling.form, self.page.filling.step
        if form is None:
            return ""
        is_asking = step is not None and not form.is_warning(self.page.filling.answers)
        return step.question if step is not None and is_asking else form.title

    def place(self, view: Any) -> str:
        """Say that the summary is what will be inked."""
        filling = self.page.filling
        return say("as it will be inked") if filling.form and filling.step is None else ""

    def fill(self, view: Any) -> None:
        """Show a danger to read, the question to answer, or the summary."""
        filling = self.page.filling
        form = filling.form
        if form is None:
            return
        self.back = form.back  # type: ignore[misc]  # the way back is the form's own
        caution = form.caution(filling.answers)
        is_asking = filling.step is not None
        self.danger.title = say("keep people away") if caution and is_asking else ""
        self.danger.text = caution if form.is_warning(filling.answers) else ""
        step = filling.step
        if self.danger.text:
            self._set([self.danger, Widget()], [self.go_on], KEY_MM)
        elif step is None:
            self._show_summary(form)
        else:
            self._show_question(form, step)

    def _show_question(self, form: Form, step: Step) -> None:
        filling = self.page.filling
        is_text = step.way is AnswerKind.TEXT or filling.is_writing
        options = () if filling.is_writing else step.options
        if is_text and not self.text.focus:
            self.text.text = str(filling.answers.get(step.field) or "")
        body = self._body(is_text, bool(options) or not is_text)
        if form.is_single:
            self._set([body], [self.main], KEY_MM)
        else:
            self._set([body], self._feet(step, is_text))
        self._blacken_done(form, step)
        signature = (form.name, step.field, options, str(filling.answers.get(step.field)), is_text)
        self.keys.least_high_mm = TOUCH_MM
        if signature != self.made:
            turned = self.keys.first if self.made[:2] == signature[:2] else 0
            self.made = signature
            self.keys.show_keys([self._option(step, option) for option in options], turned)

    def _feet(self, step: Step, is_text: bool) -> list[Any]:
        """Return the keys under a question."""
        feet = []
        if step.spec is not None:
            feet.append(self.pad)
        if step.can_write and not is_text:
            feet.append(self.write)
        if is_text or step.way is AnswerKind.SEVERAL:
            feet.append(self.done)
        return feet

    def _body(self, is_text: bool, has_options: bool) -> Widget:
        """Return the words to type and the keys, beside or under each other, or the keys alone.

        It stays as it is while it holds the same, so that what is typed into keeps its focus.
        """
        if self.laid != (is_text, has_options):
            self.laid = (is_text, has_options)
            for part in (self.text, self.keys):
                if part.parent is not None:
                    part.parent.remove_widget(part)
                part.size_hint = (1, 1)  # else the share it had beside the other stays
            self.body = self._words_and(has_options) if is_text else self.keys
        return self.body

    def _words_and(self, has_options: bool) -> Widget:
        second = self.keys if has_options else Widget()
        return TwoPanes(self.text, second, share=0.42, high_share=0.34)

    def _option(self, step: Step, option: Any) -> TapKey:
        chosen = self.page.filling.answers.get(step.field)
        values = chosen if step.way is AnswerKind.SEVERAL and chosen else ()
        kind = ButtonKind.PRIMARY if option.value in values else ButtonKind.PLAIN
        key = TapKey(text=option.text, note=option.note, kind=kind, cap_mm=4.6)
        key.words.lines = 3
        key.bind(on_release=lambda _: self.page.filling.answer(option.value))
        return key

    def _show_summary(self, form: Form) -> None:
        filling = self.page.filling
        self.main.text = form.ink or say("Ink it")
        self.main.disabled = not form.is_ready(filling.answers)
        self._set([self._body(False, True)], [self.clear, self.main], KEY_MM)
        signature = (form.name, str(filling.answers), filling.position.is_listening)
        self.keys.least_high_mm = ANSWER_MM
        if signature != self.made:
            self.made = signature
            self.keys.show_keys([self._answered(step) for step in form.steps])

    def _answered(self, step: Step) -> TapKey:
        filling = self.page.filling
        answer = shorten(filling.answer_text(step), 40) or "\u2013"
        key = TapKey(text=answer, note=step.name, kind=ButtonKind.PLAIN, cap_mm=4.2)
        key.words.lines = 3
        key.bind(on_release=lambda _: filling.ask(step.field))
        return key

    def _set(self, parts: list[Widget], feet: list[Any], high_mm: float = TOUCH_MM) -> None:
        """Put the parts in that this moment needs, in their order."""
        wanted = list(parts)
        if self.danger.title and self.danger not in wanted:
            wanted.insert(0, self.danger)
        if feet:
            wanted.append(self.foot)
        if self.foot.children[::-1] != feet:
            self.foot.clear_widgets()
            for key in feet:
                self.foot.add_widget(key)
        # The key that inks stands apart from the one that clears.
        self.foot.spacing = px(10.0 if self.main in feet else GAP_MM)
        self.foot.height = px(high_mm)
        if self.children[::-1] != wanted:
            self.clear_widgets()
            for part in wanted:
                self.add_widget(part)

    def _blacken_done(self, form: Form, step: Step) -> None:
        """Let the key that goes on stand out once there is an answer."""
        has = has_answer(self.page.filling.answers, step)
        self.done.kind = ButtonKind.PRIMARY if has else ButtonKind.PLAIN
        self.main.text = form.ink or say("Ink it")
        self.main.disabled = not form.is_ready(self.page.filling.answers)

    def _typed(self, text: str) -> None:
        filling = self.page.filling
        form, step = filling.form, filling.step
        if self.text.get_root_window() is not None and form is not None and step is not None:
            filling.take_text(text)
            self._blacken_done(form, step)
