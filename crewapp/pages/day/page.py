"""The Day screen: everything of the day but the ground, then sheet, signatures, closing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any, ClassVar

from kivy.clock import Clock

from crewapp.commands.command import Command
from crewapp.commands.day import EndDelay, SignDay
from crewapp.commands.photos import KeepPhoto
from crewapp.kit.input.forms import Form, Step, value_of
from crewapp.pages.day.forms.forms import BEGAN, NONE, NOW, form_named
from crewapp.pages.day.view import DayView, ReadClock, ShowDay
from crewapp.pages.frame.form_filling import PAD, FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage
from crewapp.pages.frame.question_name import FormQuestion
from crewapp.words.translate import say


class DayPage(PartedPage):
    """The page of the day. ``arrive(part=..., form=..., day=...)`` opens it at a part."""

    name: ClassVar[str] = "day"
    keeps_room: ClassVar[bool] = False  # its forms need all the height of a small tablet
    parts: ClassVar[dict[str, str]] = {
        "menu": "crewapp.pages.day.menu_part:MenuPart",
        "form": "crewapp.pages.frame.form_part:FormPart",
        "hours": "crewapp.pages.day.hours_part:HoursPart",
        "tickets": "crewapp.pages.day.tickets_part:TicketsPart",
        "written": "crewapp.pages.day.entries_part:EntriesPart",
        "strike": "crewapp.pages.day.entries_part:StrikeEntryPart",
        "sheet": "crewapp.pages.day.sheet_part:SheetPart",
        "sign": "crewapp.pages.day.sign_part:SignPart",
        "pad": "crewapp.pages.day.sign_part:PadPart",
        "close": "crewapp.pages.day.close_part:ClosePart",
        "days": "crewapp.pages.day.days_part:DaysPart",
    }
    view: DayView | None

    def build(self) -> None:
        """Make the page and what fills its forms."""
        super().build()
        self.filling = FormFilling(self, self._form, self._special)

    def part_name(self) -> str:
        """Return the part in the draft; a form only while it can be filled in."""
        name = super().part_name()
        view = self.view
        if name == "form" and view is not None and self.filling.form is None:
            return "menu"
        if name == "strike" and view is not None:
            is_there = view.entry(str(self.draft.get("striking", ""))) is not None
            return name if is_there else "written"
        return name

    def query(self) -> ShowDay:
        """The day looked at, and the part in front."""
        return ShowDay(day=str(self.draft.get("day", "")), part=self.part_name())

    def arrive(self, part: str = "", form: str = "", day: str = "") -> None:
        """Open at a part or a form, on a day; "" is today."""
        self.keep_draft(day=day)
        if form:
            self.keep_draft(part="form", form=form, at="", writing=False)
        elif part in self.parts:
            self.keep_draft(part=part)

    def turn_to(self, name: str, **kept: Any) -> None:
        """Bring a part to the front; the sheet's facts are gathered only for it."""
        super().turn_to(name, **kept)
        if name == "sheet":
            self.refresh()

    def _form(self, name: str) -> Form | None:
        return form_named(name, self.view) if self.view is not None else None

    def _special(self, form: Form, step: Step, value: Any) -> bool:
        """Take the answers that need the clock."""
        if form.name != "delay":
            return False
        if step.field == "cause":
            self.shell.worker.ask(ReadClock(), self._delay_began, self.shell.say_failed)
        elif value == NOW:
            self._end_delay(form)
            return True
        elif value == BEGAN:
            self.ask(FormQuestion(BEGAN))
            return True
        elif value == NONE:
            self.filling.clear()
            self.turn_to("menu")
            return True
        return False

    def _delay_began(self, now_ms: int) -> None:
        kept = dict(self.draft.get("answers", {}))
        if "delay" in kept:
            kept["delay"] = {"since": now_ms, **kept["delay"]}
            self.keep_draft(answers=kept)

    def _end_delay(self, form: Form) -> None:
        answers = self.filling.answers
        if "since" in answers:
            ended = EndDelay(
                cause=answers["cause"],
                since_ms=int(answers["since"]),
                start_min=value_of(answers, BEGAN),
            )
            self.filling.send(form, ended)

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return the pad's field for a question."""
        return self.filling.pad_question(field)

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take a figure typed for a question."""
        self.drop_typed()
        self.filling.take_figure(field.removeprefix(PAD), value, text)

    def ink_form(self, form: Form, command: Command) -> None:
        """Ink a form that is filled in; a photo and a signature need one thing more."""
        if isinstance(command, KeepPhoto):
            self.pick_photo(form, command)
        elif isinstance(command, SignDay):
            self.filling.forget(form.name)
            signing = {"meaning": command.meaning, "role": command.role, "name": command.name}
            self.turn_to("pad", signing=signing, strokes=[])
        else:
            self.filling.send(form, command)

    def after_form(self, form: Form, changed: Any) -> None:
        """Go back to where the form was begun."""
        self.turn_to(form.back)

    def pick_photo(self, form: Form, photo: KeepPhoto) -> None:
        """Ask for a file; it is copied and logged when one was chosen."""
        from crewapp.device.ports import find_device

        def picked(path: Path | None) -> None:
            # The chooser may answer from a thread of its own.
            Clock.schedule_once(lambda _: self._take_photo(form, photo, path), 0)

        lack = find_device().picker.pick(picked)
        if lack is not None:
            self.shell.say_failed(
                say("No photo can be chosen on this tablet: {why}.", why=lack.why)
            )

    def _take_photo(self, form: Form, photo: KeepPhoto, path: Path | None) -> None:
        if path is not None:
            self.filling.send(form, replace(photo, path=str(path)))
