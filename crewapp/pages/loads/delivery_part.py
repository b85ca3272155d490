"""A load in: its ticket, then its weight, volume or length."""

from __future__ import annotations

from typing import Any

from crewapp.kit.keys.key_grid import KeyGrid
from crewapp.kit.keys.touchable import MainKey
from crewapp.kit.look.palette import KEY_MM, ButtonKind
from crewapp.kit.text.label import TextLabel
from crewapp.pages.frame.parted_page import Part, Stack
from crewapp.pages.loads.view import WEIGHED, LoadsView
from crewapp.words.translate import say


class DeliveryPart(Part):
    """Part behind the pad of a delivery: the ticket or none, and ways to state the amount."""

    back = "home"

    def build(self) -> None:
        """Build the keys of this part."""
        self.ticket = self._key(say("Type the ticket"), lambda: self.page.ask("ticket"))
        self.none = self._key(say("No ticket"), lambda: self.page.take_ticket(""))
        self.none.note = say("it will be flagged")
        self.weight = self._key(say("By weight"), lambda: self.page.ask("weight"))
        self.volume = self._key(say("By volume"), lambda: self.page.ask("volume"))
        self.length = self._key(say("By length"), lambda: self.page.ask("length"))
        self.said = TextLabel(cap_mm=4.2, lines=2, grows=True)
        self.grid = KeyGrid(across=2, high_mm=KEY_MM)
        stack = Stack()
        stack.add_widget(self.said)
        stack.add_widget(self.grid)
        self.add_widget(stack)

    def _key(self, text: str, act: Any) -> MainKey:
        key = MainKey(text=text, kind=ButtonKind.PLAIN, is_logging=False)
        key.bind(on_release=lambda _: act())
        return key

    def title(self, view: LoadsView) -> str:
        """Return the title: the material's name."""
        return say("{material} in", material=self.page.choice_of("material_id"))

    def fill(self, view: LoadsView) -> None:
        """Show the ticket's keys first, then those of the amount."""
        material = self.page.material
        ticket = self.page.choice_of("ticket")
        has_ticket = bool(self.page.draft.get("has_ticket"))
        if not has_ticket:
            self.said.text = say("What number is on the ticket?")
            self.grid.show_keys([self.ticket, self.none])
            return
        self.said.text = say("Ticket {ticket}", ticket=ticket) if ticket else say("No ticket")
        is_weighed = material is not None and material.use in WEIGHED
        ways = [self.weight, self.volume] if is_weighed else [self.length]
        self.grid.show_keys([*ways, self.ticket])
