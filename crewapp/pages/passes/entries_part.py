"""Entries of the pass, struck ones crossed out; and striking one."""

from __future__ import annotations

from typing import Any

from crewapp.commands.entries import Strike
from crewapp.kit.input.strike_reasons import LOAD_REASONS, READING_REASONS
from crewapp.kit.lists.row_list import RowList
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.frame.strike_part import StrikePart
from crewapp.pages.passes.view import PassEntry, PassView
from crewapp.words.translate import say


class EntriesPart(Part):
    """The entries of the pass, newest first; a tap on one leads to striking it."""

    back = "hub"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.add_widget(self.rows)

    def title(self, view: PassView) -> str:
        """Return the title of this list."""
        return say("Written for {name}", name=self.page.card.pass_id)

    def place(self, view: PassView) -> str:
        """Say what a tap does."""
        return say("tap to strike")

    def fill(self, view: PassView) -> None:
        """Show the entries of the pass."""
        self.rows.show_rows([entry_row(row) for row in self.page.card.written])

    def _pick(self, entry_id: str) -> None:
        row = find_row(self.page.card.written, entry_id)
        if row is not None and not row.is_struck:
            self.page.turn_to("strike", strike_id=entry_id)


class PassStrikePart(Part):
    """Strikes the entry chosen, or corrects a depth."""

    back = "written"

    def build(self) -> None:
        """Make the shared part and say what it leads to."""
        self.strike = StrikePart()
        self.strike.bind(
            on_strike=lambda _, entry_id, reason: self.page.do(
                Strike(entry_id=entry_id, reason=reason)
            ),
            on_correct=lambda _, entry_id, reason: self._correct(reason),
        )
        self.add_widget(self.strike)

    def title(self, view: PassView) -> str:
        """Say what is done here."""
        return say("Strike or correct")

    def place(self, view: PassView) -> str:
        """Return the pass's name, for the head."""
        return self.page.card.pass_id

    def fill(self, view: PassView) -> None:
        """Show the entry chosen; without one go back to the list."""
        row = find_row(self.page.card.written, self.page.choice_of("strike_id"))
        if row is None or row.is_struck:
            self.page.keep_draft(part="written")
            return
        reasons = READING_REASONS if row.kind in ("probe", "pass") else LOAD_REASONS
        self.strike.show_entry(row.entry_id, row.title, reasons, can_correct=row.kind == "probe")

    def _correct(self, reason: str) -> None:
        self.page.keep_draft(fix=reason)
        self.page.ask("fix_depth")


def find_row(rows: tuple[PassEntry, ...], entry_id: str) -> PassEntry | None:
    """Return an entry of a list by its id."""
    return next((row for row in rows if row.entry_id == entry_id), None)


def entry_row(row: PassEntry) -> dict[str, Any]:
    """Return an entry as a row of the list."""
    return {
        "key": row.entry_id,
        "title": row.title,
        "detail": row.detail,
        "status": row.status,
        "is_struck": row.is_struck,
    }
