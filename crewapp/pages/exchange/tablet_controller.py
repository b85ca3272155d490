"""Adding a tablet by the code that its screen shows, and taking one off the list."""

from __future__ import annotations

from typing import Any

from crewapp.commands.tablets import AddTablet, RevokeTablet
from crewapp.kit.input.code_pad import TypedCode
from crewapp.pages.exchange.view import TabletRow
from crewapp.pages.frame.code_sheet import CodeSheet
from crewapp.pages.frame.pad_sheet import lay_over
from crewapp.words.translate import say, translate_later

NAMES = (
    translate_later("second crew"),
    translate_later("third crew"),
    translate_later("office"),
    translate_later("spare tablet"),
)
REASONS = (
    translate_later("lost"),
    translate_later("stolen"),
    translate_later("broken"),
    translate_later("left the job"),
)


class TabletController:
    """Letters typed so far, the name and the reason are kept in the page's draft."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.sheet: CodeSheet | None = None

    @property
    def code(self) -> str:
        """Code just typed, or of the tablet that was picked."""
        return str(self.page.draft.get("code", ""))

    @property
    def row(self) -> TabletRow | None:
        """The tablet of the list that has this code."""
        return next((one for one in self.page.view.tablets if one.code == self.code), None)

    def begin(self) -> None:
        """Begin to type a code."""
        self.page.keep_draft(letters="", typing=True)
        self.resume()

    def resume(self) -> None:
        """Lay the letters over the screen if a code is being typed."""
        if not self.page.draft.get("typing") or self.sheet is not None:
            return
        self.sheet = CodeSheet(TypedCode.resume(str(self.page.draft.get("letters", ""))))
        self.sheet.bind(
            on_typed=lambda _, letters: self.page.keep_draft(letters=letters),
            on_code=lambda _, code: self._typed(code),
            on_leave=lambda _: self._end(),
        )
        lay_over(self.page.shell, self.sheet)

    def lift(self) -> None:
        """Take the letters away; what was typed waits in the draft."""
        if self.sheet is not None:
            self.page.shell.remove_widget(self.sheet)
            self.sheet = None

    def _end(self) -> None:
        self.page.keep_draft(typing=False, letters="")
        self.lift()

    def _typed(self, code: str) -> None:
        self._end()
        known = next((one for one in self.page.view.tablets if one.code == code), None)
        if code == self.page.view.own_code:
            self.page.shell.say_failed(say("That is the code of this very tablet."))
        elif known is not None and not known.is_off:
            self.page.shell.say_failed(say("That tablet is on the list already."))
        else:
            self.page.turn_to("named", code=code, called=known.name if known else "")

    def pick(self, code: str) -> None:
        """Look at one tablet of the list."""
        self.page.turn_to("tablet", code=code, why="")

    def add(self) -> None:
        """Let the tablet write."""
        name = str(self.page.draft.get("called", "")).strip()
        self.page.do(AddTablet(code=self.code, name=name))

    def take_off(self) -> None:
        """Let the tablet write no more."""
        self.page.do(RevokeTablet(code=self.code, why=str(self.page.draft["why"])))
