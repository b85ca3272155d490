"""The Flags screen: all that stands open, worst first; each is answered here."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.command import Command
from crewapp.kit.input.forms import Form
from crewapp.pages.flags.view import ANSWERS, FlagsView, ShowFlags, answer_form
from crewapp.pages.frame.form_filling import FormFilling
from crewapp.pages.frame.pad_sheet import PadQuestion
from crewapp.pages.frame.parted_page import PartedPage


class FlagsPage(PartedPage):
    """The page of flags. ``arrive(key=...)`` opens one of them."""

    name: ClassVar[str] = "flags"
    parts: ClassVar[dict[str, str]] = {
        "list": "crewapp.pages.flags.list_part:ListPart",
        "flag": "crewapp.pages.flags.card_part:FlagPart",
        "entries": "crewapp.pages.flags.card_part:EntriesPart",
        "form": "crewapp.pages.frame.form_part:FormPart",
    }
    view: FlagsView | None

    def build(self) -> None:
        """Make the page and what fills the reason of an answer."""
        super().build()
        self.filling = FormFilling(self, self._form)

    def part_name(self) -> str:
        """Return the part in the draft; one flag only while it is there."""
        name = super().part_name()
        if name != "list" and self.view is not None:
            card = self.view.card
            is_gone = card is None or card.row.key != self.draft.get("key")
            if is_gone or (name == "form" and self.filling.form is None):
                return "list"
        return name

    def query(self) -> ShowFlags:
        """The flag that is looked at."""
        return ShowFlags(key=str(self.draft.get("key", "")))

    def arrive(self, key: str = "") -> None:
        """Open one flag, or the list."""
        self.keep_draft(part="flag", key=key)

    def open_flag(self, key: str) -> None:
        """Look at one flag in full."""
        self.keep_draft(part="flag", key=key)
        self.refresh()

    def _form(self, name: str) -> Form | None:
        """Return the reason to give for one answer to the flag looked at."""
        answer, _, key = name.partition("/")
        card = self.view.card if self.view is not None else None
        if card is None or card.row.key != key or answer not in ANSWERS:
            return None
        return answer_form(card, answer)

    def ink_form(self, form: Form, command: Command) -> None:
        """Ink the answer to the flag."""
        self.filling.send(form, command)

    def after_form(self, form: Form, changed: Any) -> None:
        """Go back to the list, where the flag now stands among the answered ones."""
        self.turn_to("list", key="")

    def pad_question(self, field: str) -> PadQuestion | None:
        """Return None, since this page takes no figure."""
        return None

    def take_figure(self, field: str, value: int, text: str, ending: str) -> None:
        """Take no figure, since this page has no pad."""
