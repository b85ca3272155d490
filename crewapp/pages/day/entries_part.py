"""Entries of the day, struck ones crossed out; a tap strikes or corrects."""

from __future__ import annotations

from typing import Any, ClassVar

from crewapp.commands.entries import Strike
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.kit.look.palette import GAP_MM, TOUCH_MM, ButtonKind
from crewapp.kit.look.theme import px
from crewapp.kit.panes.layout import Columns
from crewapp.pages.day.forms.answers import DAY_REASONS
from crewapp.pages.day.forms.forms import FORM_OF_KIND
from crewapp.pages.day.view import DayView, EntryRow
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.frame.strike_part import StrikePart
from crewapp.words.translate import say


class EntriesPart(Part):
    """The day's entries, newest first."""

    back: ClassVar[str] = "menu"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList(TOUCH_MM)
        self.rows.nothing = say("Nothing was written on this day.")
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.days = TapKey(text=say("Other days"), kind=ButtonKind.QUIET)
        self.days.bind(on_release=lambda _: self.page.turn_to("days"))
        self.after = TapKey(text=say("After the rain"), kind=ButtonKind.QUIET)
        self.after.bind(on_release=lambda _: self.page.shell.go("after", part="home"))
        foot = Columns(high_mm=TOUCH_MM)
        self.spacing = px(GAP_MM + 0.5)  # rows of a list end a little over its foot
        for key in (self.days, self.after):
            foot.add_widget(key)
        self.add_widget(self.rows)
        self.add_widget(foot)
        self.shown: tuple[EntryRow, ...] | None = None

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Written")

    def place(self, view: DayView) -> str:
        """Say what a tap does."""
        return say("Closed: reopen it to strike") if view.is_closed else say("tap one to strike it")

    def fill(self, view: DayView) -> None:
        """Show the entries; the list stays where it was turned to while they are the same."""
        if view.written != self.shown:
            self.shown = view.written
            self.rows.show_rows([entry_row(row) for row in view.written])

    def _pick(self, entry_id: str) -> None:
        view: DayView = self.page.view
        row = view.entry(entry_id)
        if row is not None and row.can_strike and not view.is_closed:
            self.page.turn_to("strike", striking=entry_id, came_from="written")


class StrikeEntryPart(Part):
    """Part that strikes an entry, or answers it anew where this screen has its questions."""

    back: ClassVar[str] = "written"

    def build(self) -> None:
        """Make the reasons and the two keys."""
        self.strike = StrikePart()
        self.strike.bind(
            on_strike=lambda _, entry_id, reason: self._strike(entry_id, reason),
            on_correct=lambda _, entry_id, reason: self._correct(entry_id, reason),
        )
        self.add_widget(self.strike)

    def title(self, view: DayView) -> str:
        """Return the title of this part."""
        return say("Strike or correct")

    def fill(self, view: DayView) -> None:
        """Show the entry to strike."""
        self.back = str(self.page.draft.get("came_from", "written"))  # type: ignore[misc]
        row = view.entry(str(self.page.draft.get("striking", "")))
        if row is not None:
            can_correct = self._form_of(row) != ""
            self.strike.show_entry(row.entry_id, shorten(row.said, 80), DAY_REASONS, can_correct)

    def _form_of(self, row: EntryRow) -> str:
        view: DayView = self.page.view
        for worker in view.workers:
            if worker.entry_id == row.entry_id:
                return f"hours/{worker.of}/{worker.who}"
        return FORM_OF_KIND.get(row.kind, "")

    def _strike(self, entry_id: str, reason: str) -> None:
        self.page.shell.do(Strike(entry_id=entry_id, reason=reason), self._struck)

    def _struck(self, _changed: Any) -> None:
        self.strike.reason = ""
        self.page.turn_to(str(self.page.draft.get("came_from", "written")))

    def _correct(self, entry_id: str, reason: str) -> None:
        row = self.page.view.entry(entry_id)
        if row is not None:
            fix = {"entry_id": entry_id, "reason": reason}
            self.page.filling.begin(self._form_of(row), fix)


def entry_row(row: EntryRow) -> dict[str, Any]:
    """Return an entry as a row of the list."""
    return {
        "key": row.entry_id,
        "title": shorten(row.said, 90),
        "detail": row.detail,
        "is_struck": row.is_struck,
    }
