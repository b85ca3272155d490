"""The balance of each material, a tap from a load in; hoppers out by one tap."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import TapKey
from crewapp.kit.lists.row_list import RowList
from crewapp.pages.frame.parted_page import Part, PartPanes, Stack
from crewapp.pages.loads.view import LoadsView, MaterialRow
from crewapp.pages.passes.hopper_keys import HopperKeys
from crewapp.words.translate import say


class LoadsHomePart(Part):
    """Materials at the left; hoppers, spoil, coils and the day's loads at the right."""

    needs_mm = (46.0, 84.0)

    def build(self) -> None:
        """Make the list and the keys."""
        self.rows = RowList(15.5)
        self.rows.nothing = say("This job has no materials yet. A plan file brings them.")
        self.rows.bind(on_pick=lambda _, key: self.page.start_delivery(key))
        self.hoppers = HopperKeys(has_halves=False)
        self.hoppers.bind(
            on_load=lambda _, tenths, moisture: self.page.load_hopper(tenths, moisture)
        )
        self.unknown = self._key(
            say("What does a full hopper hold?"), lambda: self.page.ask("hopper")
        )
        self.into = self._key("", self._turn_into)
        self.spoil = self._key(say("Spoil away"), lambda: self.page.ask("spoil"))
        self.today = self._key(say("Today"), lambda: self.page.turn_to("today"))
        self.balance = self._key(say("Balance"), lambda: self.page.turn_to("balance"))
        self.test = self._key(say("Test the sand"), self._to_tests)
        keys = KeyGrid(
            (self.into, self.spoil, self.balance, self.today, self.test), least_wide_mm=20.0
        )
        self.side = Stack()
        self.side.add_widget(self.hoppers)
        self.side.add_widget(keys)
        self.add_widget(PartPanes(self.rows, self.side, share=0.42, high_share=0.42))

    def _key(self, text: str, act: Any) -> TapKey:
        key = TapKey(text=text, cap_mm=3.6)
        key.bind(on_release=lambda _: act())
        return key

    def title(self, view: LoadsView) -> str:
        """Return the title of this page."""
        return say("Loads")

    def place(self, view: LoadsView) -> str:
        """Say what a tap on a material does."""
        return say("tap a material: load in")

    def fill(self, view: LoadsView) -> None:
        """Show the balance and what the keys act on."""
        self.rows.show_rows([material_row(one) for one in view.materials])
        sand = view.material(self.page.sand_id)
        has_hopper = sand is not None and bool(sand.hopper_text)
        self._show(self.hoppers, has_hopper)
        self._show(self.unknown, sand is not None and not has_hopper)
        is_whole = self.page.choice_of("into") == "surface" or not view.pass_id
        name = view.surface_id if is_whole else view.pass_id
        self.into.text, self.into.note = say("Into"), name
        self.into.disabled = not view.pass_id
        self.spoil.note = view.spoil_text
        standing = sum(not row.is_struck for row in view.today)
        self.today.note = say("{count} so far", count=standing)

    def _show(self, part: Any, is_shown: bool) -> None:
        if is_shown != (part.parent is self.side):
            if is_shown:
                self.side.add_widget(part, index=len(self.side.children))
            else:
                self.side.remove_widget(part)

    def _to_tests(self) -> None:
        self.page.shell.go("after", part="sand")

    def _turn_into(self) -> None:
        now = self.page.choice_of("into")
        self.page.keep_draft(into="" if now == "surface" else "surface")
        self.page.fill()


def material_row(row: MaterialRow) -> dict[str, Any]:
    """Return a material as a row of the list."""
    return {
        "key": row.material_id,
        "title": row.material_id,
        "detail": row.left or say("none came in yet"),
        "status": row.status,
    }
