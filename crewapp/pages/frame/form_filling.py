"""The form being filled in on a page: its open question, its answers, and inking it.

Answers are kept in the page's draft by the form's name, so that a delay that
runs waits while other things are logged, and a kill loses nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from crewapp.commands.command import Command
from crewapp.commands.entries import Correct, given_fields
from crewapp.device.ports import PositionFix
from crewapp.kit.input.forms import WARNED, AnswerKind, Form, Step, append_statement, toggle_value
from crewapp.kit.input.position import ASKING, TAKE, is_better, position_answer
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.position_taker import PositionTaker
from crewapp.pages.frame.question_name import FormQuestion
from crewapp.words.translate import say

if TYPE_CHECKING:
    from crewapp.job.open_job import JobChanges

Answers = dict[str, Any]
PAD = f"{FormQuestion.subject}:"


class FormFilling:
    """Form being filled in on a page. ``make`` returns a form by name; ``inked`` is called after.

    ``special`` may take an answer that is none of the form's own values, such as
    "work goes on now", and returns whether it did.
    """

    def __init__(
        self,
        page: Any,
        make: Callable[[str], Form | None],
        special: Callable[[Form, Step, Any], bool] = lambda form, step, value: False,
    ) -> None:
        self.page = page
        self.make = make
        self.special = special
        self.position = PositionTaker(self._located, self._not_located)
        self.remark = ""

    @property
    def name(self) -> str:
        """Name of the form in front."""
        return str(self.page.draft.get("form", ""))

    @property
    def form(self) -> Form | None:
        """Form that is in front, or None."""
        return self.make(self.name) if self.name else None

    @property
    def answers(self) -> Answers:
        """Answers given so far."""
        return self.answers_of(self.name)

    def answers_of(self, name: str) -> Answers:
        """Return the answers given so far in a form."""
        kept = self.page.draft.get("answers", {})
        found = kept.get(name, {}) if isinstance(kept, dict) else {}
        return dict(found) if isinstance(found, dict) else {}

    @property
    def is_writing(self) -> bool:
        """Whether the words of a choice are being typed."""
        return bool(self.page.draft.get("writing"))

    @property
    def step(self) -> Step | None:
        """Question to answer: the one called for, or the first needed one; None: summary."""
        form = self.form
        if form is None:
            return None
        at = str(self.page.draft.get("at", "")) or form.next_field(self.answers)
        if form.is_single:
            at = form.steps[0].field
        return form.step(at) if at else None

    def answer_text(self, step: Step) -> str:
        """Return the answer to a question, or what a tap on it does; "" for neither."""
        answer = self.answers.get(step.field)
        if step.way is AnswerKind.POSITION and answer is None:
            is_asked = self.position.is_listening and self.position.asking == step.field
            return say(ASKING) if is_asked else say(TAKE)
        return step.answer_text(answer)

    def _located(self, fix: PositionFix) -> None:
        """Keep where the tablet is, if that is better known than before."""
        form, field = self.form, self.position.asking
        if form is None or form.step(field) is None:
            self.position.stop()
            return
        figures = self.page.view.figures
        taken = position_answer(fix.north_deg, fix.east_deg, fix.accuracy_m, figures)
        if taken is not None and is_better(taken, self.answers.get(field)):
            self._keep(field, taken)
            self.page.fill()

    def _not_located(self, text: str) -> None:
        """Say why there is no position; the form goes on without."""
        self.page.fill()
        self.page.shell.say_failed(text)

    def begin(self, name: str, fix: dict[str, str] | None = None) -> None:
        """Bring a form to the front, at its first open question; ``fix`` names what it corrects."""
        self.position.stop()
        fixes = dict(self.page.draft.get("fixes", {}))
        if fix is not None:
            fixes[name] = fix
        else:
            fixes.pop(name, None)
        self.page.turn_to("form", form=name, at="", writing=False, fixes=fixes)
        self._open_pad()

    def ask(self, field: str) -> None:
        """Ask a question, again or for the first time."""
        form = self.form
        step = form.step(field) if form else None
        if step is None:
            return
        if step.way is AnswerKind.YES:
            self._keep(field, not self.answers.get(field))
            self.page.fill()
        elif step.way is AnswerKind.POSITION:
            self.position.ask(field)
            self.page.fill()
        elif step.way is AnswerKind.FIGURE and not step.options:
            self.page.ask(FormQuestion(field))
        else:
            self.page.keep_draft(at=field, writing=False)
            self.page.fill()

    def answer(self, value: Any) -> None:
        """Take the answer that was tapped."""
        form, step = self.form, self.step
        if form is None or step is None or self.special(form, step, value):
            return
        if step.way is AnswerKind.SEVERAL:
            chosen = toggle_value(list(self.answers.get(step.field) or []), value)
            self._keep(step.field, chosen, at=step.field)
            self.page.fill()
        elif step.way is AnswerKind.TEXT:
            text = append_statement(str(self.answers.get(step.field) or ""), str(value))
            self._keep(step.field, text, at=step.field)  # more may be said
            self.page.fill()
        elif step.way is AnswerKind.FIGURE:
            self.take_figure(step.field, int(value), step.text_of(value))
        else:
            self._keep(step.field, value)
            self.go_on()

    def take_figure(self, field: str, value: int, text: str) -> None:
        """Take a figure, by chip or pad."""
        self._keep(field, {"value": value, "text": text})
        self.go_on()

    def take_text(self, text: str) -> None:
        """Keep words as they are typed."""
        step = self.step
        if step is not None and text != str(self.answers.get(step.field) or ""):
            self._keep(step.field, text, at=step.field)

    def ask_figure(self) -> None:
        """Lay the number pad over the screen for the question."""
        if self.step is not None:
            self.page.ask(FormQuestion(self.step.field))

    def accept_warning(self) -> None:
        """Go on after a danger was read."""
        self._keep(WARNED, True)
        self.go_on()

    def begin_writing(self) -> None:
        """Type the words instead of choosing."""
        step = self.step
        if step is not None:
            self.page.keep_draft(at=step.field, writing=True)
            self.page.fill()

    def go_on(self) -> None:
        """Go to the next needed question, the summary, or ink at once."""
        form = self.form
        self.page.keep_draft(at="", writing=False)
        if form is not None and form.at_once and form.is_ready(self.answers):
            self.ink()
        else:
            self.page.fill()
            self._open_pad()

    def _open_pad(self) -> None:
        """Lay the pad over a question that nothing but a figure answers."""
        step = self.step
        if step is not None and step.way is AnswerKind.FIGURE and not step.options:
            self.page.ask(FormQuestion(step.field))

    def pad_question(self, pad: str) -> PadQuestion | None:
        """Return the pad's field for a question of this form."""
        form = self.form
        step = form.step(pad.removeprefix(PAD)) if form and pad.startswith(PAD) else None
        if form is None or step is None or step.spec is None:
            return None
        return PadQuestion(step.spec, form.pad_place)

    def clear(self) -> None:
        """Forget what was answered."""
        self.forget(self.name)
        self.page.keep_draft(at="", writing=False)
        self.page.fill()

    def forget(self, name: str) -> None:
        """Forget a form's answers: they were inked or given up."""
        self.position.stop()
        kept = {k: v for k, v in self.page.draft.get("answers", {}).items() if k != name}
        fixes = {k: v for k, v in self.page.draft.get("fixes", {}).items() if k != name}
        self.page.keep_draft(answers=kept, fixes=fixes)

    def ink(self) -> None:
        """Ink the answers; they are forgotten only once they are inked."""
        form = self.form
        if form is not None and form.is_ready(self.answers):
            self.page.ink_form(form, form.command(self.answers))

    def send(self, form: Form, command: Command) -> None:
        """Carry out the form's command, or correct the entry that it was begun for."""
        fix = self.page.draft.get("fixes", {}).get(form.name)
        if fix:
            command = Correct(
                entry_id=fix["entry_id"], reason=fix["reason"], fields=given_fields(command)
            )

        def done(changed: JobChanges) -> None:
            self.forget(form.name)
            self.page.after_form(form, changed)

        self.page.shell.do(command, done, self.page.fill)

    def _keep(self, field: str, value: Any, **more: Any) -> None:
        answers = {**self.answers, field: value}
        kept = {**self.page.draft.get("answers", {}), self.name: answers}
        self.page.keep_draft(answers=kept, **more)
