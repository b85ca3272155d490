"""Lists of the Loads page: coils on site, the loads of the day, and striking one."""

from __future__ import annotations

from crewapp.commands.entries import Strike
from crewapp.kit.input.strike_reasons import LOAD_REASONS
from crewapp.kit.lists.row_list import RowList
from crewapp.pages.frame.parted_page import Part
from crewapp.pages.frame.strike_part import StrikePart
from crewapp.pages.loads.view import LoadsView
from crewapp.pages.passes.entries_part import entry_row, find_row
from crewapp.words.translate import say


class BalancePart(Part):
    """Part with each material: what came in, was placed and is planned, and what is left."""

    back = "home"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.bind(on_pick=lambda *_: self.page.turn_to("coils"))
        self.add_widget(self.rows)

    def title(self, view: LoadsView) -> str:
        """Return the title of this list."""
        return say("Balance")

    def place(self, view: LoadsView) -> str:
        """Say what a tap does."""
        return say("tap one: coils of pipe")

    def fill(self, view: LoadsView) -> None:
        """Show the balance of each material."""
        self.rows.show_rows(
            [
                {
                    "key": one.material_id,
                    "title": say("{name}: {left}", name=one.material_id, left=one.left)
                    if one.left
                    else one.material_id,
                    "detail": one.detail,
                    "status": one.status,
                }
                for one in view.materials
            ]
        )


class CoilsPart(Part):
    """Every coil with what is left on it."""

    back = "balance"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.nothing = say("No coil came in yet. Take one in by a tap on its pipe.")
        self.add_widget(self.rows)

    def title(self, view: LoadsView) -> str:
        """Return the title of this list."""
        return say("Coils of pipe")

    def fill(self, view: LoadsView) -> None:
        """Show the coils on site."""
        self.rows.show_rows(
            [
                {
                    "key": coil.coil_id,
                    "title": coil.coil_id,
                    "detail": f"{coil.material_id}: {coil.text}",
                    "status": coil.status,
                }
                for coil in view.coils
            ]
        )


class TodayLoadsPart(Part):
    """The loads of the day, newest first; a tap on one leads to striking it."""

    back = "home"

    def build(self) -> None:
        """Build the list of this part."""
        self.rows = RowList()
        self.rows.nothing = say("No loads today.")
        self.rows.bind(on_pick=lambda _, key: self._pick(key))
        self.add_widget(self.rows)

    def title(self, view: LoadsView) -> str:
        """Return the title of this list."""
        return say("Loads today")

    def place(self, view: LoadsView) -> str:
        """Say what a tap does."""
        return say("tap to strike") if view.today else ""

    def fill(self, view: LoadsView) -> None:
        """Show the loads of the day."""
        self.rows.show_rows([entry_row(row) for row in view.today])

    def _pick(self, entry_id: str) -> None:
        row = find_row(self.page.view.today, entry_id)
        if row is not None and not row.is_struck:
            self.page.turn_to("strike", strike_id=entry_id)


class LoadStrikePart(Part):
    """Strikes the load chosen."""

    back = "today"

    def build(self) -> None:
        """Make the shared part and say what it leads to."""
        self.strike = StrikePart()
        self.strike.bind(
            on_strike=lambda _, entry_id, reason: self.page.do(
                Strike(entry_id=entry_id, reason=reason)
            )
        )
        self.add_widget(self.strike)

    def title(self, view: LoadsView) -> str:
        """Say what is done here."""
        return say("Strike a load")

    def fill(self, view: LoadsView) -> None:
        """Show the load chosen."""
        row = find_row(view.today, self.page.choice_of("strike_id"))
        if row is not None:
            self.strike.show_entry(row.entry_id, row.title, LOAD_REASONS)
